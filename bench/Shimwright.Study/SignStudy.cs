using System.Globalization;
using Shimwright.Domain.Wear.Signs;

namespace Shimwright.Study;

/// <summary>How often each sign is raised: a check with nothing wrong, and by the last check with one fault put in.</summary>
internal static class SignStudy
{
    private const int FirstAfterFault = 2;
    private static readonly SignKind[] Kinds = [.. Enum.GetValues<SignKind>().Where(k => k != SignKind.RoomNearlyUsed)];

    public static void Run(TextWriter to, int engines, int seed)
    {
        foreach ((int cylinders, int perSide) in new[] { (1, 2), (4, 2) })
        {
            to.WriteLine(Text($"\n{2 * cylinders * perSide} valves, {engines} engines a row, seed {seed}\n"));
            to.WriteLine($"| engine | {string.Join(" | ", Kinds)} | any |");
            to.WriteLine($"|---|{string.Concat(Enumerable.Repeat("---|", Kinds.Length + 1))}");
            foreach (Fault fault in Enum.GetValues<Fault>())
            {
                HashSet<SignKind>[][] seen = [.. Enumerable.Range(0, engines).AsParallel().AsOrdered()
                    .Select(n => Signs(new WearingEngine(seed, n, cylinders, perSide, fault)))];
                to.WriteLine(Row(fault, seen));
            }
        }
    }

    private static HashSet<SignKind>[] Signs(WearingEngine engine) =>
        [.. engine.Live().Skip(1).Select(wear => WearSigns.Of(wear).Select(s => s.Kind).ToHashSet())];

    private static string Row(Fault fault, HashSet<SignKind>[][] seen)
    {
        // A check with nothing wrong is one chance of a false alarm; a fault has until the last check to be seen.
        HashSet<SignKind>[] chances = fault == Fault.Nothing
            ? [.. seen.SelectMany(s => s)]
            : [.. seen.Select(s => s.Skip(FirstAfterFault - 1).SelectMany(k => k).ToHashSet())];
        IEnumerable<string> shares = Kinds.Select(k => Share(chances.Count(c => c.Contains(k)), chances.Length))
            .Append(Share(chances.Count(c => c.Count > 0), chances.Length));
        return $"| {fault} | {string.Join(" | ", shares)} |";
    }

    private static string Share(int times, int of) => Text($"{100.0 * times / of:0.0} %");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

using System.Globalization;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

internal static class Program
{
    private const int UsualEngines = 1000;
    private const int UsualSeed = 4_711;

    /// <summary>Optional arguments: how many engines of each population (1000), and the seed (4711). "signs" before them: how often wear's signs are raised; "advice": what pays next followed to its end (words after the seed choose rows); "robust": promises where engines lose clearance by other laws; "page" and a file: the same as without a word, as a page with pictures.</summary>
    private static async Task<int> Main(string[] args)
    {
        string? page = args is ["page", _, ..] ? args[1] : null;
        args = page is null ? args : args[2..];
        if (args is ["signs", ..])
        {
            SignStudy.Run(
                Console.Out,
                args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : UsualEngines,
                args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : UsualSeed);
            return 0;
        }

        if (args is ["robust", ..])
        {
            Robust.Run(
                Console.Out,
                args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : UsualEngines,
                args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : UsualSeed);
            return 0;
        }

        if (args is ["advice", ..])
        {
            AdviceStudy.Run(
                Console.Out,
                args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : UsualEngines,
                args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : UsualSeed,
                [.. args.Skip(3)]);
            return 0;
        }

        int engines = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : UsualEngines;
        int seed = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : UsualSeed;
        List<StudiedPopulation> studied = [];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{engines} engines of each population, seed {seed}"));
        foreach (Population population in new[] { Population.Worn, Population.Dusty, Population.OtherFingers })
        {
            studied.Add(new(population.Name, [.. Strategies(population).Select(s => (s.Name, Study.Run(seed, population, engines, s.Make)))]));
            Console.WriteLine();
            Tables.Print(Console.Out, studied[^1].Name, studied[^1].Rows);
        }

        if (page is not null)
        {
            await File.WriteAllTextAsync(page, await StudyPage.OfAsync(engines, seed, studied));
        }

        return 0;
    }

    private static IEnumerable<(string Name, Func<Strategy> Make)> Strategies(Population population)
    {
        yield return ("plan, measured shims", () => new ByPlan(measures: true));
        if (population.OwnFingers)
        {
            yield return ("plan, measured shims, fingers calibrated", () => new ByPlan(measures: true, feel: j => j.Calibrate()));
            yield return ("plan, measured shims, fingers known exactly", () => new ByPlan(measures: true, feel: j => j.Person));
            yield return ("arithmetic, marks", () => ByNumber.Arithmetic(measures: false));
            yield break;
        }

        if (population.Told != LossPrior.Ordinary)
        {
            yield return ("plan, measured shims, dust not told", () => new ByPlan(measures: true, LossPrior.Ordinary));
        }

        yield return ("plan, measured shims, depths where no blade enters",
            () => new ByPlan(measures: true, depths: DepthsTaken.WhereNoBladeEnters));
        yield return ("plan, measured shims, depths of all valves under a lifted camshaft",
            () => new ByPlan(measures: true, depths: DepthsTaken.UnderLiftedCamshafts));
        yield return ("plan, measured shims, kit shims measured before they are chosen", () => new ByPlan(measures: true, measuresKit: true));
        yield return ("plan, kit shims measured, depths where no blade enters",
            () => new ByPlan(measures: true, depths: DepthsTaken.WhereNoBladeEnters, measuresKit: true));
        yield return ("plan, kit shims measured, depths of all valves under a lifted camshaft",
            () => new ByPlan(measures: true, depths: DepthsTaken.UnderLiftedCamshafts, measuresKit: true));
        yield return ("plan, marks", () => new ByPlan(measures: false));
        yield return ("arithmetic, marks", () => ByNumber.Arithmetic(measures: false));
        yield return ("arithmetic, measured shims", () => ByNumber.Arithmetic(measures: true));
        yield return ("arithmetic, measured shims, light read as 0.006 more",
            () => ByNumber.Arithmetic(measures: true, Fingers.MiddleOfLight));
        yield return ("two sizes down", ByNumber.TwoSizesDown);
        yield return ("knows the clearances, marks", () => new ByTruth());
    }
}

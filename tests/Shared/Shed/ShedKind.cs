using System.Text.Json.Nodes;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Cards;

namespace Shimwright.Testing.Shed;

/// <summary>A kind of engine that the shed lends: an invention like everything of that shed.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Diameter">Diameter of its shims, mm.</param>
/// <param name="Cylinders">How many cylinders.</param>
/// <param name="EachSide">How many valves a cylinder has on each side.</param>
internal sealed record ShedKind(string Name, double Diameter, int Cylinders, int EachSide)
{
    private const double Step = 0.05;
    private const double Thinnest = 1.2;
    private const int Count = 47;

    public static IReadOnlyList<ShedKind> All { get; } = [new("Shed single", 9.48, 1, 2), new("Shed twin", 7.48, 2, 1)];

    /// <summary>The sizes of its shims that can be bought, thinnest first: those of the settings.</summary>
    public IReadOnlyList<ShimSize> Sizes => [.. Enumerable.Range(0, Count).Select(i => ShimSize.Of(Diameter, Thinnest + (i * Step), "marked"))];

    /// <summary>The size nearest to a thickness.</summary>
    public ShimSize SizeNear(double thickness) => Sizes.MinBy(s => Math.Abs(s.ThicknessMm - thickness));

    public EngineCard Card()
    {
        JsonArray valves = [];
        for (int c = 1; c <= Cylinders; c++)
        {
            for (int k = 1; k <= EachSide; k++)
            {
                valves.Add(Valve($"I{c}{k}", c, "intake", 0.10, 0.20));
                valves.Add(Valve($"E{c}{k}", c, "exhaust", 0.20, 0.30));
            }
        }

        ParsedCard reading = EngineCard.Read(new JsonObject
        {
            ["name"] = Name,
            ["valvetrain"] = "shim-under-bucket",
            ["valves"] = valves,
            ["wear"] = new JsonObject { ["clock"] = "hours", ["interval"] = 30, ["lossPerInterval"] = 0.02, ["spread"] = 0.02 },
        });
        return reading.Card ?? throw new InvalidOperationException(string.Join("; ", reading.Problems));
    }

    private static JsonObject Valve(string id, int cylinder, string side, double low, double high) => new()
    {
        ["id"] = id,
        ["cylinder"] = cylinder,
        ["side"] = side,
        ["access"] = $"{side} cam",
        ["band"] = new JsonArray(low, high),
    };
}

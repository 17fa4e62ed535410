using System.Text.Json.Nodes;

namespace Shimwright.Fuzz;

/// <summary>A valid job by what makes it hard.</summary>
internal sealed record WorstShape
{
    private static readonly double[] Widths = [0.005, 0.01, 0.05, 0.3, 2];
    private static readonly double[] Losses = [0.001, 0.02, 0.2, 1];
    private static readonly double[] Doubts = [0, 0.005, 0.05];

    public int Valves { get; init; }
    public double Width { get; init; }
    public double WidthsApart { get; init; }
    public double Shared { get; init; }
    public double Own { get; init; }
    public double Uncertainty { get; init; }
    public int Trials { get; init; }
    public int Repeats { get; init; }
    public double Spread { get; init; }
    public double Doubt { get; init; }
    public double BladeError { get; init; }
    public double Temperature { get; init; }
    public int Groups { get; init; }
    public int Drawer { get; init; }
    public int Sizes { get; init; }
    public double Ratio { get; init; }
    public int Past { get; init; }
    public double Horizon { get; init; }
    public int Blades { get; init; }
    public double Seating { get; init; }
    public double Floor { get; init; }
    public double Redo { get; init; }

    public static WorstShape Draw(Random random)
    {
        var shape = new WorstShape();
        for (int part = 0; part < Parts; part++)
        {
            shape = shape.With(part, random);
        }

        return shape;
    }

    public WorstShape Changed(Random random) => With(random.Next(Parts), random).With(random.Next(Parts), random);

    private const int Parts = 22;

    private WorstShape With(int part, Random random) => part switch
    {
        0 => this with { Valves = Any(random, 4, 16, 32, 64, 64) },
        1 => this with { Width = Any(random, Widths) },
        2 => this with { WidthsApart = Any(random, 0, 0.0001, 0.01) },
        3 => this with { Shared = Any(random, Losses) },
        4 => this with { Own = Any(random, Losses) },
        5 => this with { Uncertainty = Any(random, 0, 0.001, 0.01, 0.2) },
        6 => this with { Trials = Any(random, 0, 1, 5, 40) },
        7 => this with { Repeats = Any(random, 1, 2, 40) },
        8 => this with { Spread = Any(random, 0.001, 0.006, 0.1) },
        9 => this with { Doubt = Any(random, Doubts) },
        10 => this with { BladeError = Any(random, 0, 0.003, 0.05) },
        11 => this with { Temperature = Any(random, 20, 60, 150) },
        12 => this with { Groups = Any(random, 1, 2, 8, 64) },
        13 => this with { Drawer = Any(random, 0, 30, 500, 5000) },
        14 => this with { Sizes = Any(random, 1, 40, 1999) },
        15 => this with { Ratio = Any(random, 0.1, 1, 5) },
        16 => this with { Past = Any(random, 0, 0, 5, 200, 1000) },
        17 => this with { Horizon = Any(random, 0, 0, 1, 1000) },
        18 => this with { Blades = Any(random, 0, 13, 200) },
        19 => this with { Seating = Any(random, 0, 0.004, 0.05) },
        20 => this with { Floor = Any(random, 0, 0.05) },
        _ => this with { Redo = Any(random, 0, 60, 10000) },
    };

    public JsonObject ToJson() => new()
    {
        ["format"] = "shimwright-job/1",
        ["engine"] = new JsonObject
        {
            ["name"] = "Worst",
            ["valvetrain"] = "shim-under-bucket",
            ["ratio"] = Ratio,
            ["valves"] = List(Valves, v => new JsonObject
            {
                ["id"] = $"V{v}",
                ["cylinder"] = (v % 16) + 1,
                ["side"] = v % 2 == 0 ? "intake" : "exhaust",
                ["access"] = $"cam {v % Groups}",
                ["band"] = new JsonArray(0.1, Math.Round(0.1 + Width + (v * WidthsApart), 6)),
            }),
            ["wear"] = new JsonObject { ["clock"] = "hours", ["interval"] = 30, ["lossPerInterval"] = 0.008, ["spread"] = 0.006 },
        },
        ["history"] = List(Past, k => Check(k * 0.1, 2)),
        ["check"] = Check(200, Trials),
        ["stock"] = new JsonObject
        {
            ["drawer"] = List(Drawer, k => new JsonObject { ["thickness"] = Math.Round(2 + (k * 0.0002), 4), ["by"] = k % 2 == 0 ? "micrometer" : "marked" }),
            ["buy"] = new JsonObject { ["from"] = 2.0, ["to"] = Math.Round(2.0 + (0.0005 * Sizes), 4), ["step"] = 0.0005, ["price"] = 5 },
        },
        ["costs"] = new JsonObject { ["redo"] = Redo, ["horizon"] = Horizon },
        ["settings"] = new JsonObject
        {
            ["feel"] = new JsonObject { ["spread"] = Spread, ["doubt"] = Doubt },
            ["blade"] = BladeError,
            ["seating"] = Seating,
            ["fitFloor"] = Floor,
            ["keepFloor"] = 0.5,
        },
    };

    private JsonObject Check(double clock, int trials)
    {
        var check = new JsonObject
        {
            ["clock"] = clock,
            ["temperatureC"] = Temperature,
            ["loss"] = new JsonObject { ["shared"] = Shared, ["own"] = Own },
            ["readings"] = List(Valves, v => Reading(v, trials)),
            ["fitted"] = List(Valves, v => new JsonObject { ["valve"] = $"V{v}", ["thickness"] = Math.Round(2.4 + (0.003 * v), 4), ["by"] = "micrometer" }),
        };
        if (Blades > 0)
        {
            check["blades"] = List(Blades, k => Math.Round(0.02 + (0.002 * k), 4));
        }

        return check;
    }

    private JsonObject Reading(int v, int trials)
    {
        double at = Math.Round(0.1 + (Math.Min(Width, 0.3) / 2) + (v % 5 * 0.01), 4);
        var reading = new JsonObject { ["valve"] = $"V{v}" };
        if (trials > 0)
        {
            reading["trials"] = List(trials, k => new JsonObject
            {
                ["blade"] = Math.Round(at + (k / Repeats * 0.0005), 4),
                ["feel"] = k % 3 == 0 ? "light" : "firm",
            });
        }

        if (Uncertainty > 0)
        {
            reading["value"] = Math.Round((Width / 2) + 0.1, 4);
            reading["u"] = Uncertainty;
        }

        if (trials == 0 && Uncertainty == 0)
        {
            reading["bucketTurns"] = true;
        }

        return reading;
    }

    private static JsonArray List(int count, Func<int, JsonNode?> of) => new([.. Enumerable.Range(0, count).Select(of)]);

    private static T Any<T>(Random random, params T[] of) => of[random.Next(of.Length)];
}

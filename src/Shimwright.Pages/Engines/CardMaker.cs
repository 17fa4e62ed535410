using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>Makes a card of answers. What cannot be read is noted under the question's name and left out.</summary>
internal sealed class CardMaker(CardAnswers answers, LengthStyle lengths)
{
    private readonly List<JobProblem> _problems = [];

    /// <summary>What could not be read.</summary>
    public IReadOnlyList<JobProblem> Problems => _problems;

    /// <summary>Diameter of the shims, mm; null where it is not known or there are none.</summary>
    public double? Diameter { get; private set; }

    /// <summary>The card; to be asked for once the first two screens are right.</summary>
    public JsonObject Make()
    {
        ValveTrainWords train = answers.Train!;
        JsonObject card = new() { ["name"] = answers["name"], ["valvetrain"] = train.Name };
        if (train.HasLever)
        {
            PutLever(card);
        }

        if (train.Adjuster == Domain.Engines.Adjuster.Screw)
        {
            Put(card, "pitch", lengths.Read(answers["pitch"], "pitch"));
        }

        card["valves"] = Valves();
        Diameter = answers.HasShims ? ReadDiameter() : null;
        if (Layout() is { } layout)
        {
            card["layout"] = layout;
        }

        if (TypedNumber.Clock(answers["interval"], "interval", ClockUnit, needed: false).Note(_problems) is { } interval)
        {
            card["wear"] = new JsonObject { ["clock"] = ClockUnit == "km" ? "km" : "hours", ["interval"] = interval };
        }
        else if (ClockUnit == "km" && answers["interval"].Length == 0)
        {
            _problems.Add(new("interval", "nothing was entered", "enter the maker's interval in kilometres, or choose hours"));
        }

        return card;
    }

    /// <summary>The lever, and where shim or screw and gap are; those count only beside it.</summary>
    private void PutLever(JsonObject card)
    {
        Put(card, "leverRatio", TypedNumber.Plain(answers["leverRatio"], "leverRatio", needed: false));
        foreach ((string key, IReadOnlyList<(string Name, string Title)> choices) in new[] { ("feltAt", CardLever.Gaps), ("screwAt", CardLever.Screws) })
        {
            if (card.ContainsKey("leverRatio") && choices.Skip(1).Any(c => c.Name == answers[key]))
            {
                card[key] = answers[key];
            }
        }
    }

    private string ClockUnit => answers["clock"] == "km" ? "km" : "h";

    private JsonArray Valves()
    {
        (int intake, int exhaust) = answers.Split!.Value;
        JsonArray valves = [];
        Add("I", "intake", intake, "intakeLow", "intakeHigh");
        Add("E", "exhaust", exhaust, "exhaustLow", "exhaustHigh");
        return valves;

        void Add(string letter, string side, int each, string low, string high)
        {
            double? from = lengths.In(answers["limitsUnit"]).Read(answers[low], low).Note(_problems);
            double? to = lengths.In(answers["limitsUnit"]).Read(answers[high], high).Note(_problems);
            for (int v = 0; v < each * answers.Cylinders!.Value; v++)
            {
                int cylinder = (v / each) + 1;
                valves.Add(new JsonObject
                {
                    ["id"] = $"{letter}{v + 1}",
                    ["cylinder"] = cylinder,
                    ["side"] = side,
                    ["access"] = AccessOf(cylinder, side),
                    ["band"] = new JsonArray([.. new[] { from, to }.OfType<double>().Select(l => JsonValue.Create(l))]),
                });
            }
        }
    }

    private string AccessOf(int cylinder, string side)
    {
        if (answers["access"] == Domain.Engines.Valve.NoAccess && answers.Train!.HasLever)
        {
            return Domain.Engines.Valve.NoAccess;
        }

        string what = answers.Train!.LiftsCamshafts ? "cam" : answers.Train.Adjuster == Domain.Engines.Adjuster.Screw ? "rocker cover" : "cover";
        string ofSide = answers.BySide ? $"{side} {what}" : what;
        return answers.TwoBanks ? $"bank {answers.BankOf(cylinder)} {ofSide}" : ofSide;
    }

    private double? ReadDiameter()
    {
        double? diameter = lengths.Read(answers["diameter"], "diameter", needed: false).Note(_problems);
        IReadOnlyList<JobProblem> wrong = DetailRules.ProblemsOf(new CardDetails { ShimDiameter = diameter }, []);
        _problems.AddRange(wrong.Select(p => p with { Path = "diameter" }));
        return wrong.Count == 0 ? diameter : null;
    }

    private JsonObject? Layout()
    {
        double[]? angles = Angles();
        JsonObject? intake = Events("intakeOpens", "opensBtdc", "intakeCloses", "closesAbdc");
        JsonObject? exhaust = Events("exhaustOpens", "opensBbdc", "exhaustCloses", "closesAtdc");
        if (answers.Order is not { } order)
        {
            if (answers["order"].Length > 0)
            {
                _problems.Add(new("order", $"found \"{answers["order"]}\"", "enter the firing order, such as 1-3-4-2"));
            }
            else if (intake is not null || exhaust is not null || angles is not null)
            {
                _problems.Add(new("order", "nothing was entered", "enter it, or clear the cam events and angles"));
            }

            return null;
        }

        if (!order.Order().SequenceEqual(Enumerable.Range(1, answers.Cylinders!.Value)))
        {
            _problems.Add(new("order", $"found {FiringOrders.Text(order)}", $"enter each cylinder from 1 to {answers.Cylinders} once"));
            return null;
        }

        JsonObject layout = new() { ["firingOrder"] = new JsonArray([.. order.Select(c => JsonValue.Create(c))]) };
        if (angles is not null)
        {
            layout["firingAngles"] = new JsonArray([.. angles.Select(a => JsonValue.Create(a))]);
        }

        if (intake is not null)
        {
            layout["intake"] = intake;
        }

        if (exhaust is not null)
        {
            layout["exhaust"] = exhaust;
        }

        return layout;
    }

    private double[]? Angles()
    {
        string[] typed = answers["angles"].Split([' ', ';', '/'], StringSplitOptions.RemoveEmptyEntries);
        double?[] read = [.. typed.Select(a => TypedNumber.Degrees(a, "angles").Note(_problems))];
        return read.Length == 0 || read.Contains(null) ? null : [.. read.OfType<double>()];
    }

    /// <summary>The events of a side: both or none.</summary>
    private JsonObject? Events(string opens, string opensName, string closes, string closesName)
    {
        bool asked = answers[opens].Length > 0 || answers[closes].Length > 0;
        double? open = TypedNumber.Degrees(answers[opens], opens, needed: asked).Note(_problems);
        double? close = TypedNumber.Degrees(answers[closes], closes, needed: asked).Note(_problems);
        return open is { } o && close is { } c ? new() { [opensName] = o, [closesName] = c } : null;
    }

    private void Put(JsonObject card, string name, TypedNumber number)
    {
        if (number.Note(_problems) is { } value)
        {
            card[name] = value;
        }
    }
}

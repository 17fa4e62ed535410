using System.Globalization;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Drawer;

/// <summary>The fields of a kit that could be bought.</summary>
public sealed class KitForm : ActionForm
{
    public string? Name { get; set; }

    public string? Diameter { get; set; }

    /// <summary>The unit that was chosen for bare numbers; default is the bench's.</summary>
    public string? Unit { get; set; }

    public string? From { get; set; }

    public string? To { get; set; }

    public string? Step { get; set; }

    public string? Each { get; set; }

    public string? Price { get; set; }

    /// <summary>A kit in its fields.</summary>
    public static KitForm Of(KitOnOffer kit, LengthStyle lengths)
    {
        ArgumentNullException.ThrowIfNull(kit);
        ArgumentNullException.ThrowIfNull(lengths);
        return new()
        {
            Name = kit.Name,
            Diameter = lengths.Field(kit.Diameter),
            From = lengths.Field(kit.From),
            To = lengths.Field(kit.To),
            Step = lengths.Field(kit.Step),
            Each = kit.Each.ToString(CultureInfo.InvariantCulture),
            Price = Times.Exact(kit.Price),
        };
    }

    /// <summary>Reads the kit; null where there are problems.</summary>
    public KitOnOffer? Read(LengthStyle lengths, List<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        ArgumentNullException.ThrowIfNull(problems);
        double? diameter = lengths.In(Unit).Read(Diameter, "diameter").Note(problems);
        double? from = lengths.In(Unit).Read(From, "from").Note(problems);
        double? to = lengths.In(Unit).Read(To, "to").Note(problems);
        double? step = lengths.In(Unit).Read(Step, "step").Note(problems);
        double? price = TypedNumber.Plain(Price, "price").Note(problems);
        if (!int.TryParse(Each?.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int each))
        {
            problems.Add(new("each", string.IsNullOrWhiteSpace(Each) ? "nothing was entered" : $"found \"{Each.Trim()}\"", "enter a whole number of 1 or more"));
        }

        if (problems.Count > 0)
        {
            return null;
        }

        var kit = new KitOnOffer(Name?.Trim() ?? "", diameter!.Value, from!.Value, to!.Value, step!.Value, each, price!.Value);
        problems.AddRange(kit.Problems());
        return problems.Count == 0 ? kit : null;
    }
}

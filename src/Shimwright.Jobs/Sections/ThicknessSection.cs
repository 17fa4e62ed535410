using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The instruments of a job by name.</summary>
internal sealed record InstrumentSet(Instrument Marked, Instrument Calliper, Instrument Micrometer)
{
    public static InstrumentSet Default { get; } = new(Instrument.Marked, Instrument.Calliper, Instrument.Micrometer);

    public IReadOnlyDictionary<string, int> Names { get; } = new Dictionary<string, int>(StringComparer.Ordinal)
    {
        [Marked.Name] = 0,
        [Calliper.Name] = 1,
        [Micrometer.Name] = 2,
    };

    public Instrument At(int index) => index switch { 0 => Marked, 1 => Calliper, _ => Micrometer };

    public static InstrumentSet? Read(ObjectMembers o) => new(
        ReadOne(o, Instrument.Marked), ReadOne(o, Instrument.Calliper), ReadOne(o, Instrument.Micrometer));

    private static Instrument ReadOne(ObjectMembers o, Instrument usual)
    {
        var rule = new NumberRule(0, Instrument.GreatestUncertainty, Measure.Length);
        return o.Object(
            usual.Name,
            i =>
            {
                double? repeat = i.Number("repeat", rule, "Standard uncertainty that is new at every thickness, mm.");
                double? shared = i.Number("shared", rule, "Standard uncertainty that all its thicknesses share, mm.");
                return new Instrument(usual.Name, repeat ?? usual.Random, shared ?? usual.Systematic);
            },
            $"Uncertainty of a thickness found by {usual.Name}.") ?? usual;
    }
}

/// <summary>The members "thickness" and "by".</summary>
internal static class ThicknessSection
{
    public static NumberRule Rule { get; } = new(Thickness.Thinnest, Thickness.Thickest, Measure.Length);

    public static Thickness? Read(ObjectMembers o, InstrumentSet instruments)
    {
        double? thickness = o.Number("thickness", Rule, "Thickness, mm.", required: true);
        int? by = o.Choice("by", instruments.Names, "How it was found.", required: true);
        return thickness is { } t && by is { } b ? new Thickness(t, instruments.At(b)) : null;
    }
}

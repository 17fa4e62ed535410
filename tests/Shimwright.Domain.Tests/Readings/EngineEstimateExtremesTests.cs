using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

[Proof(Formulas.Estimate, Evidence.Computed, "The same where bands, blades and doubts are as extreme as they may be.")]
public class EngineEstimateExtremesTests(ITestOutputHelper output)
{
    private static readonly ClearanceBand Narrow = new(0.150, 0.155);
    private static readonly ClearanceBand Wide = new(0.01, 3);
    private static readonly FeelProfile NoSlips = new(slip: 0);
    private static readonly ValveReadings Doubtful = Made.Felt((0.13, Feel.Loose), (0.18, Feel.Firm));

    private static readonly Dictionary<string, Func<EngineCheck>> Usual = new()
    {
        ["nothing read"] = () => Made.Check(ValveReadings.None),
        ["a valve held open"] = () => Made.Check(Made.Value(-0.08), Doubtful),
        ["a bucket that will not turn"] = () => Made.Check(new ValveReadings(bucketTurns: [false]), Doubtful),
        ["no slips"] = () => One(Doubtful, feel: NoSlips),
        ["no slips and a contradiction"] = () => One(Made.Felt((0.10, Feel.No), (0.15, Feel.Light)), feel: NoSlips),
        ["a value at the reach of the strays"] = () => Made.Check(Made.Value(0.645, 0.02)),
    };

    private static readonly Dictionary<string, Func<EngineCheck>> Fine = new()
    {
        ["a wide band"] = () => One(Made.Value(1.2), Wide),
        ["a wide band, nothing read"] = () => One(ValveReadings.None, Wide),
        ["the greatest losses"] = () => One(Doubtful, loss: new LossPrior(1, 1)),
        ["a narrow band"] = () => new(Made.Engine(Made.Valve(band: Narrow), Made.Valve("I2")), [Doubtful, Made.Value(0.12)]),
        ["a narrow band and a fine value"] = () => One(Made.Value(0.149, 0.001), Narrow),
        ["wide and narrow in one engine"] = () =>
            new(Made.Engine(Made.Valve(band: new(0.05, 0.35)), Made.Valve("I2", band: Narrow)), [Made.Value(0.1), Doubtful]),
        ["64 valves"] = Many,
        ["a fine value"] = () => Made.Check(Made.Value(0.121, 0.001)),
        ["a fine value outside all expectation"] = () => Made.Check(Made.Value(0.40, 0.001)),
        ["a fine value at the very reach of the strays"] = () => Made.Check(Made.Value(0.65, 0.001)),
        ["next to no loss"] = () => One(Doubtful, loss: new LossPrior(0.001, 0.001)),
    };

    public static TheoryData<string> UsualCases => [.. Usual.Keys];

    public static TheoryData<string> FineCases => [.. Fine.Keys];

    [Theory]
    [Long]
    [MemberData(nameof(UsualCases))]
    public void From_ExtremeCase_AgreesWithPlainSums(string name) => Agrees(name, Usual[name](), SlowGrid.Usual, 1e-4);

    /// <summary>A value of 0.001 near a limit of the band lies on three points to a standard deviation: its chance is good to 5e-4.</summary>
    [Theory]
    [Long]
    [MemberData(nameof(FineCases))]
    public void From_ExtremelyFineCase_AgreesWithFinerPlainSums(string name) =>
        Agrees(name, Fine[name](), name == "64 valves" ? SlowGrid.FineLoss : SlowGrid.Fine, 5e-4);

    private void Agrees(string name, EngineCheck check, SlowGrid grid, double limit)
    {
        Agreement agreement = new Agreement().Add(check, grid);
        output.WriteLine($"{name}: {agreement}");
        Assert.True(agreement.Probability < limit && agreement.Moments < 3e-5 && agreement.Ends < 1e-4, agreement.ToString());
    }

    private static EngineCheck One(
        ValveReadings readings, ClearanceBand? band = null, FeelProfile? feel = null, LossPrior? loss = null) =>
        new(Made.Engine(Made.Valve(band: band)), [readings], feel: feel, loss: loss);

    private static EngineCheck Many()
    {
        ValveReadings[] some = [Doubtful, Made.Value(0.11), ValveReadings.None, Made.Felt((0.10, Feel.Light))];
        Valve[] valves =
        [
            .. Enumerable.Range(0, 64).Select(v => Made.Valve($"V{v}", v % 2 == 0 ? ValveSide.Intake : ValveSide.Exhaust)),
        ];
        return new(Made.Engine(valves), valves.Select((_, v) => some[v % 4]));
    }
}

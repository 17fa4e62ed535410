using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Settings;

namespace Shimwright.Jobs.Due;

/// <summary>A valve as its last check left it.</summary>
/// <param name="State">Clearance and rate.</param>
/// <param name="Band">Its band.</param>
/// <param name="Shim">The thickness in it, mm; null where it is not known.</param>
/// <param name="ShimError">Standard uncertainty of that thickness, mm.</param>
/// <param name="Alone">The chance of being in band below which a plan would change it if it stood alone.</param>
/// <param name="Along">The same where its cover comes off anyway.</param>
/// <param name="Cover">Which cover it lies behind: valves with the same number lie behind one.</param>
public sealed record ValveOutlook(WearState State, ClearanceBand Band, double? Shim, double ShimError, double Alone, double Along, int Cover);

/// <summary>What an engine's valves will want of shims, as its last check lets expect.</summary>
/// <param name="Ratio">Clearance at the gap per unit of shim.</param>
/// <param name="Diffusion">q, mm² per hour or km.</param>
/// <param name="Valves">The valves, in the engine's order.</param>
public sealed record ShimOutlook(double Ratio, double Diffusion, IReadOnlyList<ValveOutlook> Valves)
{
    private const int HeadNumbers = 2;
    private const int ValveNumbers = 12;

    /// <summary>Nothing can be said.</summary>
    public static ShimOutlook None { get; } = new(1, 0, []);

    /// <summary>How many valves have a shim whose thickness is not known.</summary>
    public int Unknown => Valves.Count(v => v.Shim is null);

    /// <summary>What can be said of an engine.</summary>
    /// <param name="outlook">Its outlook.</param>
    /// <param name="wear">What its checks say.</param>
    /// <param name="access">Minutes to lift each access group.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The outlook; no valves where it has no shims.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="outlook"/>, <paramref name="wear"/>, <paramref name="access"/> or <paramref name="settings"/> is null.</exception>
    public static ShimOutlook Of(EngineOutlook outlook, EngineWear wear, IReadOnlyDictionary<string, double> access, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        ArgumentNullException.ThrowIfNull(wear);
        ArgumentNullException.ThrowIfNull(access);
        ArgumentNullException.ThrowIfNull(settings);
        if (!wear.Engine.Valvetrain.HasShims)
        {
            return None;
        }

        var leverage = Leverage.Of(wear.Engine.Valvetrain);
        double step = settings.SizesToBuy.Select(k => k.Step).DefaultIfEmpty(0).Min();
        double error = Combine(DirectValue.UsualUncertainty, settings.Seating, leverage.AtTheGap(Instrument.Marked.Random));
        string[] covers = [.. wear.Engine.Groups];
        return new(leverage.Ratio, wear.Usual.Diffusion,
        [
            .. wear.Engine.Valves.Zip(wear.Now, (valve, state) =>
            {
                Thickness? shim = outlook.Job.FittedAt(valve);
                double fitted = CheckWant.Fitted(valve.Band, leverage, step, error);
                // Without a price: a shim of the drawer costs a plan nothing, and what is asked is what would be taken out of a drawer that has it.
                double along = settings.Swap;
                double again = settings.Redo + access.GetValueOrDefault(valve.Access) + Again(settings);
                return new ValveOutlook(
                    state, valve.Band, shim?.Millimetres, shim is null ? 0 : Combine(shim.By.Random, shim.By.Systematic),
                    CheckWant.ChangeBelow(settings.KeepFloor, fitted, along + access.GetValueOrDefault(valve.Access), again),
                    CheckWant.ChangeBelow(settings.KeepFloor, fitted, along, again), Array.IndexOf(covers, valve.Group));
            }),
        ]);
    }

    /// <summary>What changing a valve once more costs: the swap, and the cheapest size if any is for sale.</summary>
    private static double Again(BenchSettings settings) => settings.SizesToBuy.Count == 0
        ? 0
        : settings.Swap + (settings.SizesToBuy.Min(s => s.Price) * settings.MinutesPerCurrency);

    /// <summary>What the valves whose shim is known will want when the clock has run on.</summary>
    /// <param name="time">Hours or km since the last check, 0 or more.</param>
    /// <returns>The wants.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="time"/> is below 0.</exception>
    public IReadOnlyList<ThicknessWant> WantsAfter(double time)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(time);
        return
        [
            .. Valves.Where(v => v.Shim is not null).GroupBy(v => v.Cover)
                .SelectMany(g => CheckWant.BehindOneCover([.. g.Select(v => (Want(v, time, v.Alone), Want(v, time, v.Along)))])),
        ];
    }

    private ThicknessWant Want(ValveOutlook valve, double time, double changeBelow) => CheckWant.Of(
        valve.State.After(time, Diffusion), valve.Band, new Leverage(Ratio), valve.Shim!.Value, valve.ShimError, changeBelow, DirectValue.UsualUncertainty);

    /// <summary>Writes it in one line of numbers.</summary>
    /// <returns>JSON.</returns>
    public string Write() => JsonSerializer.Serialize(Valves.Count == 0 ? [] :
    [
        Ratio, Diffusion,
        .. Valves.SelectMany(v => new[]
        {
            v.State.Clearance, v.State.Rate, v.State.ClearanceVariance, v.State.Covariance, v.State.RateVariance,
            v.Band.Low, v.Band.High, v.Shim ?? 0, v.ShimError, v.Alone, v.Along, v.Cover,
        }),
    ], NumbersContext.Default.DoubleArray);

    /// <summary>Reads what was written.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The outlook.</returns>
    public static ShimOutlook Read(string json)
    {
        double[] all = JsonSerializer.Deserialize(json, NumbersContext.Default.DoubleArray) ?? [];
        return all.Length < HeadNumbers ? None : new(all[0], all[1],
        [
            .. all.Skip(HeadNumbers).Chunk(ValveNumbers).Select(n => new ValveOutlook(
                new(n[0], n[1], n[2], n[3], n[4]), new(n[5], n[6]), n[7] > 0 ? n[7] : null, n[8], n[9], n[10], (int)n[11])),
        ]);
    }

    private static double Combine(params ReadOnlySpan<double> parts)
    {
        double sum = 0;
        foreach (double part in parts)
        {
            sum += part * part;
        }

        return Math.Sqrt(sum);
    }
}

[JsonSerializable(typeof(double[]))]
internal sealed partial class NumbersContext : JsonSerializerContext;

using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sheets;

/// <summary>A sheet as the job that it says: its facts laid over what the job started from.</summary>
internal static class WrittenSheet
{
    public static WrittenJob Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        WrittenJob start = sheet.Setup.Written;
        return start with
        {
            Check = start.Check with
            {
                Clock = sheet.Check.Clock,
                TemperatureC = sheet.Check.TemperatureC,
                Readings = Readings(sheet, SheetPart.Check),
                Loss = sheet.Suspected?.Loss ?? start.Check.Loss,
                Camshafts = Camshafts(sheet),
                Fitted = sheet.Engine.Valvetrain.HasShims
                    ? [.. sheet.Engine.Valves.Select(v => sheet.FoundAt(v.Id)).OfType<ThicknessFound>().Select(f => new WrittenFitted(f.Valve, f.Thickness, f.By))]
                    : null,
            },
            Stock = HasStock(sheet) ? StockOf(JobTerms.Stock(sheet)) : start.Stock,
            Costs = sheet.Newest<CostsStated>() is { } c ? new(c.Redo, c.Swap, c.MinutesPerCurrency, c.Horizon, c.Access, c.Disturb) : start.Costs,
            Recheck = Recheck(sheet),
        };
    }

    /// <summary>Whether the sheet says what shims there are, or the shop does.</summary>
    public static bool HasStock(JobSheet sheet) => sheet.Newest<StockStated>() is not null || JobTerms.UsesShop(sheet);

    /// <summary>What was done and read after the check; null where nothing of the kind was said and no plan was accepted.</summary>
    public static WrittenRecheck? Recheck(JobSheet sheet)
    {
        WrittenChange[] changed = [.. sheet.Engine.Valves.Select(v => sheet.ChangeAt(v.Id)).OfType<ChangeFact>().Select(ChangeOf)];
        List<WrittenReading> readings = Readings(sheet, SheetPart.Recheck);
        RecheckStated? stated = sheet.Newest<RecheckStated>();
        return changed.Length == 0 && readings.Count == 0 && stated is null && sheet.Plan is null
            ? null
            : new(changed, readings, stated?.TemperatureC);
    }

    /// <summary>What was measured at a camshaft takes the place of what the job started with of that name.</summary>
    public static IReadOnlyList<WrittenCamshaft>? Camshafts(JobSheet sheet)
    {
        CamshaftFact[] measured = [.. sheet.Camshafts];
        IReadOnlyList<WrittenCamshaft>? start = sheet.Setup.Written.Check.Camshafts;
        return measured.Length == 0
            ? start
            : [.. (start ?? []).Where(c => measured.All(m => m.Camshaft != c.Name)), .. measured.Select(CamshaftOf)];
    }

    /// <summary>The readings of each valve, as few as the format's limits let them be: one has a number of trials, a value and a turn.</summary>
    private static List<WrittenReading> Readings(JobSheet sheet, SheetPart part)
    {
        List<WrittenReading> readings = [];
        foreach (Valve valve in sheet.Engine.Valves)
        {
            JobFact[] facts = [.. sheet.Readings(part, valve.Id).Select(e => e.Fact)];
            BladeTried[][] trials = [.. facts.OfType<BladeTried>().Chunk(ReadingsSection.MostTrials)];
            ClearanceRead[] values = [.. facts.OfType<ClearanceRead>()];
            DepthTaken[] depths = [.. facts.OfType<DepthTaken>()];
            BucketTurned[] turns = [.. facts.OfType<BucketTurned>()];
            int count = Math.Max(Math.Max(trials.Length, values.Length), Math.Max(depths.Length, turns.Length));
            for (int i = 0; i < count; i++)
            {
                readings.Add(new(
                    valve.Id,
                    trials.ElementAtOrDefault(i) is { } tried ? [.. tried.Select(t => new WrittenTrial(t.Blade, t.Feel, t.Leaves))] : null,
                    values.ElementAtOrDefault(i)?.Value,
                    values.ElementAtOrDefault(i)?.U,
                    depths.ElementAtOrDefault(i) is { } depth ? new(depth.Camshaft, PartOf(depth.Bucket), PartIfAny(depth.Shim)) : null,
                    turns.ElementAtOrDefault(i)?.Turns));
            }
        }

        return readings;
    }

    private static WrittenCamshaft CamshaftOf(CamshaftFact camshaft) => camshaft switch
    {
        CamshaftMeasured m => new(m.Camshaft, PartOf(m.Saddle), PartOf(m.Journal), PartOf(m.BaseCircle), PartIfAny(m.Play)),
        CamshaftCompared c => new(c.Camshaft, Known: new(c.Valve, PartOf(c.Bucket), PartOf(c.Clearance), PartIfAny(c.Shim))),
        _ => throw new InvalidOperationException($"A camshaft of the kind {camshaft.GetType().Name} has no place in a job."),
    };

    private static WrittenPart PartOf(MeasuredPart part) => new(part.Value, part.U, part.Df);

    private static WrittenPart? PartIfAny(MeasuredPart? part) => part is null ? null : PartOf(part);

    private static WrittenChange ChangeOf(ChangeFact change) => change switch
    {
        ShimFitted fitted => new(fitted.Valve, ThicknessOf(fitted.From), ThicknessOf(fitted.To)),
        ScrewTurned turned => new(turned.Valve, Turns: turned.Turns),
        _ => throw new InvalidOperationException($"A change of the kind {change.GetType().Name} has no place in a job."),
    };

    private static WrittenThickness ThicknessOf(ThicknessRow t) => new(t.Thickness, t.By);

    private static WrittenStock StockOf(StockStated stock) => new(
        [.. stock.Drawer.Select(d => new WrittenShims(d.Thickness, d.By, d.Count))],
        [.. stock.Buy.Select(b => new WrittenSizes(b.From, b.To, b.Step, b.Price))]);
}

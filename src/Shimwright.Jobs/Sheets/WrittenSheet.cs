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
            : new(changed, readings, stated?.TemperatureC, DryFits: DryFits(sheet));
    }

    /// <summary>
    /// The dry fits, in their order. One lasts until another shim goes in under its camshaft: what was felt goes with the shims that lay there then.
    /// </summary>
    private static List<WrittenDryFit>? DryFits(JobSheet sheet)
    {
        List<WrittenDryFit> all = [];
        ChangesMade changes = new();
        // A valve that the engine does not have is told of too: whoever reads what is written says so.
        string AccessOf(string valve) => sheet.Engine.Valves.FirstOrDefault(v => v.Id == valve)?.Access ?? "";
        Dictionary<string, List<JobFact>> felt = new(StringComparer.Ordinal);
        foreach (JobEntry entry in sheet.InForce)
        {
            if (entry.Fact is ChangeFact change)
            {
                if (changes.IsAnother(change, sheet.FoundAt(change.Valve)))
                {
                    Close(AccessOf(change.Valve));
                }

                changes.Add(entry.Number, change, sheet.FoundAt(change.Valve));
            }
            else if (entry.Fact is ReadingFact { Part: SheetPart.DryFit } reading and not DepthTaken)
            {
                string access = AccessOf(reading.Valve);
                if (!felt.TryGetValue(access, out List<JobFact>? facts))
                {
                    felt.Add(access, facts = []);
                }

                facts.Add(reading);
            }
        }

        foreach (string access in felt.Keys.ToArray())
        {
            Close(access);
        }

        return all.Count == 0 ? null : all;

        void Close(string access)
        {
            if (felt.Remove(access, out List<JobFact>? facts))
            {
                string[] under = [.. sheet.Engine.Under(access).Select(v => v.Id).Union(facts.Select(f => ((ReadingFact)f).Valve))];
                all.Add(new(
                    access,
                    [.. under.SelectMany(v => ReadingsOf(v, [.. facts.Where(f => ((ReadingFact)f).Valve == v)]))],
                    [.. under.Select(changes.At).OfType<ChangeFact>().Select(ChangeOf)]));
            }
        }
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
    private static List<WrittenReading> Readings(JobSheet sheet, SheetPart part) =>
        [.. sheet.Engine.Valves.SelectMany(v => ReadingsOf(v.Id, [.. sheet.Readings(part, v.Id).Select(e => e.Fact)]))];

    /// <summary>What was read at one valve.</summary>
    private static IEnumerable<WrittenReading> ReadingsOf(string valve, JobFact[] facts)
    {
        BladeTried[][] trials = [.. facts.OfType<BladeTried>().Chunk(ReadingsSection.MostTrials)];
        ClearanceRead[] values = [.. facts.OfType<ClearanceRead>()];
        DepthTaken[] depths = [.. facts.OfType<DepthTaken>()];
        BucketTurned[] turns = [.. facts.OfType<BucketTurned>()];
        int count = Math.Max(Math.Max(trials.Length, values.Length), Math.Max(depths.Length, turns.Length));
        for (int i = 0; i < count; i++)
        {
            yield return new(
                valve,
                trials.ElementAtOrDefault(i) is { } tried ? [.. tried.Select(t => new WrittenTrial(t.Blade, t.Feel, t.Leaves))] : null,
                values.ElementAtOrDefault(i)?.Value,
                values.ElementAtOrDefault(i)?.U,
                depths.ElementAtOrDefault(i) is { } depth ? new(depth.Camshaft, PartOf(depth.Bucket), PartIfAny(depth.Shim)) : null,
                turns.ElementAtOrDefault(i)?.Turns);
        }
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
        [.. stock.Drawer.Select(d => new WrittenShims(d.Thickness, d.By, d.Count, d.Marked))],
        [.. stock.Buy.Select(b => new WrittenSizes(b.From, b.To, b.Step, b.Price))]);
}

using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Sheets;

/// <summary>Writes a sheet as a job file, which every command reads.</summary>
public static class JobSheetFile
{
    /// <summary>The sheet as a job file.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <returns>The file, indented.</returns>
    public static byte[] Write(JobSheet sheet) => Encoding.UTF8.GetBytes(ResultJson.Indent(Build(sheet)) + "\n");

    /// <summary>Reads the sheet for a purpose.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="purpose">The purpose.</param>
    /// <returns>The job, or what is still missing or wrong.</returns>
    public static ParsedJob Read(JobSheet sheet, JobPurpose purpose) =>
        JobFile.Read(Encoding.UTF8.GetBytes(Build(sheet).ToJsonString()), purpose);

    /// <summary>The lifted camshafts of the check, by name: those that the job started with and those that were measured since.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <returns>The names.</returns>
    public static IReadOnlyList<string> CamshaftNames(JobSheet sheet) =>
        Build(sheet)["check"]!["camshafts"] is JsonArray camshafts ? [.. camshafts.Select(c => c?["name"]?.GetValue<string>()).OfType<string>()] : [];

    internal static JsonObject Build(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        JsonObject file = sheet.Setup.NewFile();
        var check = (JsonObject)file["check"]!;
        check["clock"] = sheet.Check.Clock;
        check["temperatureC"] = sheet.Check.TemperatureC;
        if (sheet.Suspected is { Shared: { } shared, Own: { } own })
        {
            check["loss"] = new JsonObject { ["shared"] = shared, ["own"] = own };
        }

        AddCamshafts(check, sheet);
        check["readings"] = Readings(sheet, SheetPart.Check);
        if (sheet.Engine.Valvetrain.HasShims)
        {
            check["fitted"] = Array(sheet.Engine.Valves.Select(v => sheet.FoundAt(v.Id)).OfType<ThicknessFound>()
                .Select(f => new JsonObject { ["valve"] = f.Valve, ["thickness"] = f.Thickness, ["by"] = f.By }));
        }

        if (sheet.Newest<StockStated>() is not null || JobTerms.UsesShop(sheet))
        {
            file["stock"] = StockOf(JobTerms.Stock(sheet));
        }

        if (sheet.Newest<CostsStated>() is { } costs)
        {
            file["costs"] = CostsOf(costs);
        }

        if (RecheckOf(sheet) is { } recheck)
        {
            file["recheck"] = recheck;
        }

        return file;
    }

    /// <summary>Whether the file of a sheet has a re-check in it.</summary>
    internal static bool HasRecheck(JobSheet sheet) => RecheckOf(sheet) is not null;

    private static JsonObject? RecheckOf(JobSheet sheet)
    {
        JsonArray changed = Array(sheet.Engine.Valves.Select(v => sheet.ChangeAt(v.Id)).OfType<ChangeFact>().Select(ChangeOf));
        JsonArray readings = Readings(sheet, SheetPart.Recheck);
        RecheckStated? stated = sheet.Newest<RecheckStated>();
        if (changed.Count == 0 && readings.Count == 0 && stated is null && sheet.Plan is null)
        {
            return null;
        }

        JsonObject recheck = new() { ["changed"] = changed, ["readings"] = readings };
        if (stated is not null)
        {
            recheck["temperatureC"] = stated.TemperatureC;
        }

        return recheck;
    }

    /// <summary>The readings of each valve, as few as the format's limits let them be: one has a number of trials, a value and a turn.</summary>
    private static JsonArray Readings(JobSheet sheet, SheetPart part)
    {
        JsonArray readings = [];
        foreach (Valve valve in sheet.Engine.Valves)
        {
            JobFact[] facts = [.. sheet.Readings(part, valve.Id).Select(e => e.Fact)];
            BladeTried[][] trials = [.. facts.OfType<BladeTried>().Chunk(ReadingsSection.MostTrials)];
            ClearanceRead[] values = [.. facts.OfType<ClearanceRead>()];
            DepthTaken[] depths = [.. facts.OfType<DepthTaken>()];
            BucketTurned[] turns = [.. facts.OfType<BucketTurned>()];
            int count = new[] { trials.Length, values.Length, depths.Length, turns.Length }.Max();
            for (int i = 0; i < count; i++)
            {
                readings.Add(ReadingOf(
                    valve.Id, trials.ElementAtOrDefault(i), values.ElementAtOrDefault(i), depths.ElementAtOrDefault(i), turns.ElementAtOrDefault(i)));
            }
        }

        return readings;
    }

    private static JsonObject ReadingOf(string valve, BladeTried[]? trials, ClearanceRead? value, DepthTaken? depth, BucketTurned? turned)
    {
        JsonObject reading = new() { ["valve"] = valve };
        if (trials is not null)
        {
            reading["trials"] = Array(trials.Select(t => new JsonObject { ["blade"] = t.Blade, ["feel"] = t.Feel, ["leaves"] = t.Leaves }));
        }

        if (value is not null)
        {
            reading["value"] = value.Value;
            reading["u"] = value.U;
        }

        if (depth is not null)
        {
            reading["depth"] = DepthOf(depth);
        }

        if (turned is not null)
        {
            reading["bucketTurns"] = turned.Turns;
        }

        return reading;
    }

    /// <summary>What was measured at a camshaft takes the place of what the job started with of that name.</summary>
    private static void AddCamshafts(JsonObject check, JobSheet sheet)
    {
        CamshaftFact[] measured = [.. sheet.Camshafts];
        if (measured.Length == 0)
        {
            return;
        }

        JsonArray camshafts = check["camshafts"] as JsonArray ?? [];
        check["camshafts"] = new JsonArray(
        [
            .. camshafts.OfType<JsonObject>().Where(c => measured.All(m => m.Camshaft != c["name"]?.GetValue<string>())).Select(c => c.DeepClone()),
            .. measured.Select(CamshaftOf),
        ]);
    }

    private static JsonObject CamshaftOf(CamshaftFact camshaft)
    {
        JsonObject made = new() { ["name"] = camshaft.Camshaft };
        if (camshaft is CamshaftMeasured measured)
        {
            made["saddle"] = PartOf(measured.Saddle);
            made["journal"] = PartOf(measured.Journal);
            made["baseCircle"] = PartOf(measured.BaseCircle);
            AddPart(made, "play", measured.Play);
        }
        else if (camshaft is CamshaftCompared compared)
        {
            JsonObject known = new() { ["valve"] = compared.Valve, ["bucket"] = PartOf(compared.Bucket), ["clearance"] = PartOf(compared.Clearance) };
            AddPart(known, "shim", compared.Shim);
            made["known"] = known;
        }

        return made;
    }

    private static void AddPart(JsonObject to, string name, MeasuredPart? part)
    {
        if (part is not null)
        {
            to[name] = PartOf(part);
        }
    }

    private static JsonObject DepthOf(DepthTaken depth)
    {
        JsonObject taken = new() { ["camshaft"] = depth.Camshaft, ["bucket"] = PartOf(depth.Bucket) };
        AddPart(taken, "shim", depth.Shim);
        return taken;
    }

    private static JsonObject PartOf(MeasuredPart part)
    {
        JsonObject measured = new() { ["value"] = part.Value, ["u"] = part.U };
        if (part.Df is { } df)
        {
            measured["df"] = df;
        }

        return measured;
    }

    private static JsonObject ChangeOf(ChangeFact change) => change switch
    {
        ShimFitted fitted => new() { ["valve"] = fitted.Valve, ["from"] = ThicknessOf(fitted.From), ["to"] = ThicknessOf(fitted.To) },
        ScrewTurned turned => new() { ["valve"] = turned.Valve, ["turns"] = turned.Turns },
        _ => throw new InvalidOperationException($"A change of the kind {change.GetType().Name} has no place in a job file."),
    };

    private static JsonObject ThicknessOf(ThicknessRow t) => new() { ["thickness"] = t.Thickness, ["by"] = t.By };

    private static JsonObject StockOf(StockStated stock) => new()
    {
        ["drawer"] = Array(stock.Drawer.Select(d => new JsonObject { ["thickness"] = d.Thickness, ["by"] = d.By, ["count"] = d.Count })),
        ["buy"] = Array(stock.Buy.Select(b => new JsonObject { ["from"] = b.From, ["to"] = b.To, ["step"] = b.Step, ["price"] = b.Price })),
    };

    private static JsonObject CostsOf(CostsStated costs) => new()
    {
        ["redo"] = costs.Redo,
        ["swap"] = costs.Swap,
        ["minutesPerCurrency"] = costs.MinutesPerCurrency,
        ["horizon"] = costs.Horizon,
        ["access"] = new JsonObject(costs.Access.Select(a => KeyValuePair.Create<string, JsonNode?>(a.Key, a.Value))),
    };

    private static JsonArray Array(IEnumerable<JsonObject> items) => [.. items];
}

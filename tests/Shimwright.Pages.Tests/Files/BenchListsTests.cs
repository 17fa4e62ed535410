using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.InMemory;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Tables;
using Shimwright.Pages.Files;
using Shimwright.Pages.Tests.Samples;
using Shimwright.Pages.Tests.Served;
using Shimwright.Testing.Workshop;

namespace Shimwright.Pages.Tests.Files;

/// <summary>Every list of a full bench as a file, read by a parser that knows nothing of the program, against what the bench says.</summary>
public sealed class BenchListsTests : IAsyncLifetime
{
    private readonly StillTime _time = new();
    private MemoryBench _bench = null!;
    private FullWorkshop _workshop = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _bench = new(_time);
        _workshop = new(_bench, NewId, DemoFile.Read);
        await _workshop.FillAsync();
        await _workshop.AddPastWorkAsync();

        Guid NewId()
        {
            _time.GoOn();
            return Guid.CreateVersion7(_time.GetUtcNow());
        }
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public async Task Lists_OfAFullBench_AreWhatTheBenchSays()
    {
        Dictionary<string, int> expected = new()
        {
            ["/engines/engines.csv"] = await _bench.Engines.CountAsync(null, Cancel) + await _bench.Engines.CountRetiredAsync(null, Cancel),
            ["/due/due.csv"] = await _bench.Engines.CountAsync(null, Cancel),
            ["/engines/{id:guid}/wear.csv"] = (await _bench.Engines.FindAsync(_workshop.Engine, Cancel))!.Card.Engine.Valves.Count,
            ["/jobs/jobs.csv"] = await _bench.Jobs.CountOpenAsync(Cancel) + (await _bench.Jobs.ClosedAsync(0, 1000, Cancel)).Count,
            ["/jobs/{id:guid}/readings.csv"] = (await _bench.Jobs.FindAsync(_workshop.Failed, Cancel))!.Sheet.InForce.Count(e => e.Fact is ReadingFact),
            ["/drawer/drawer.csv"] = (await _bench.Drawer.LotsAsync(Cancel)).Count,
            ["/drawer/ledger.csv"] = (await _bench.Drawer.EntriesAsync(0, null, Cancel)).Count,
            ["/drawer/marks.csv"] = (await _bench.Marks.ListAsync(Cancel)).Count,
            ["/year.csv"] = 12,
            ["/feel/{id:guid}/trials.csv"] = (await _bench.Feel.FindAsync(_workshop.Person, Cancel))!.Book.Trials.Count,
        };
        foreach (BenchList list in BenchLists.All)
        {
            Table table = await FetchAsync(list.Template);
            Assert.Equal(list.Columns.Select(c => c.Name), table.Heading);
            Assert.All(table.Rows, r => Assert.Equal(table.Heading.Length, r.Length));
            Assert.NotEmpty(table.Rows);
            Assert.Equal(expected.GetValueOrDefault(list.Template, table.Rows.Count), table.Rows.Count);
            foreach ((int column, string name) in table.Heading.Index().Where(h => h.Item.EndsWith("_mm", StringComparison.Ordinal)))
            {
                Assert.All(table.Rows, r => Assert.True(r[column].Length == 0 || double.TryParse(r[column], NumberStyles.Float, CultureInfo.InvariantCulture, out _), $"{list.Template} {name}: {r[column]}"));
            }

            foreach ((int column, _) in table.Heading.Index().Where(h => h.Item is "at" or "read_at" or "started_at" or "closed_at"))
            {
                Assert.All(table.Rows, r => Assert.Matches(@"^(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ)?$", r[column]));
            }
        }
    }

    [Fact]
    public async Task Lists_Values_AreThoseOfTheBench()
    {
        StoredJob job = (await _bench.Jobs.FindAsync(_workshop.Failed, Cancel))!;
        Table readings = await FetchAsync("/jobs/{id:guid}/readings.csv");
        foreach ((string[] row, JobEntry entry) in readings.Rows.Zip(job.Sheet.InForce.Where(e => e.Fact is ReadingFact)))
        {
            Assert.Equal(((ReadingFact)entry.Fact).Valve, row[readings.At("valve")]);
            if (entry.Fact is ClearanceRead read)
            {
                Assert.Equal(read.Value, double.Parse(row[readings.At("clearance_mm")], CultureInfo.InvariantCulture), 1e-6);
            }
        }

        Table jobs = await FetchAsync("/jobs/jobs.csv");
        string[] closed = jobs.Rows.Single(r => r[jobs.At("job_id")] == _workshop.Failed.ToString());
        Assert.Equal(("closed", "h", "no"), (closed[jobs.At("stage")], closed[jobs.At("clock_unit")], closed[jobs.At("nothing_to_do")]));

        Table ledger = await FetchAsync("/drawer/ledger.csv");
        foreach (ShimLot lot in await _bench.Drawer.LotsAsync(Cancel))
        {
            string size = lot.Size.ThicknessMm.ToString("0.######", CultureInfo.InvariantCulture), diameter = lot.Size.DiameterMm.ToString("0.######", CultureInfo.InvariantCulture);
            Assert.Equal(lot.Count, ledger.Rows.Where(r => r[ledger.At("thickness_mm")] == size && r[ledger.At("diameter_mm")] == diameter && r[ledger.At("by")] == lot.Size.By)
                .Sum(r => int.Parse(r[ledger.At("change")], CultureInfo.InvariantCulture)));
        }
    }

    /// <summary>What is read back has the unit in its heading now; files from before have not.</summary>
    [Fact]
    public async Task Lists_ThatAreReadBack_AreTheSame()
    {
        DrawerReading drawer = DrawerTable.Read((await FileAsync("/drawer/drawer.csv"))!.Content);
        Assert.Empty(drawer.Problems);
        Assert.Equal((await _bench.Drawer.LotsAsync(Cancel)).Select(l => (l.Size.ThicknessMm, l.Lying)), drawer.Lines.Select(l => (l.Thickness, l.Count)));
        Assert.Equal((await _bench.Feel.FindAsync(_workshop.Person, Cancel))!.Book.Trials, TrialFile.Read((await FileAsync("/feel/{id:guid}/trials.csv"))!.Content).Trials);
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+pump")]
    [InlineData("-pump")]
    [InlineData("@pump")]
    public async Task Name_ThatASpreadsheetWouldRun_IsText(string name)
    {
        StoredEngine engine = (await _bench.Engines.FindAsync(_workshop.Engine, Cancel))!;
        await _bench.Engines.AddSharingAsync(Guid.NewGuid(), name, engine.CardId, Cancel);
        Table engines = await FetchAsync("/engines/engines.csv");
        Assert.Contains(engines.Rows, r => r[0] == $"'{name}");
        Assert.DoesNotContain(engines.Rows, r => r[0] == name);
    }

    [Fact]
    public async Task List_OfWhatIsNotThere_IsNoFile()
    {
        foreach (string path in new[] { "/engines/01234567-89ab-cdef-0123-456789abcdef/wear.csv", "/jobs/01234567-89ab-cdef-0123-456789abcdef/readings.csv", "/feel/01234567-89ab-cdef-0123-456789abcdef/trials.csv" })
        {
            Assert.Null(await FileAddresses.FetchAsync(_bench, new("http://bench" + path), _time, "http://bench"));
        }
    }

    /// <summary>The year's sums against a count of the closed jobs, one by one.</summary>
    [Fact]
    public async Task Year_OfAFullBench_IsWhatACountOfItsJobsSays()
    {
        int jobs = 0, checkedAgain = 0, passed = 0, shims = 0;
        foreach (JobSummary closed in await _bench.Jobs.ClosedAsync(0, 1000, Cancel))
        {
            StoredJob job = (await _bench.Jobs.FindAsync(closed.Id, Cancel))!;
            string[] changed = [.. job.Sheet.Engine.Valves.Select(v => v.Id).Where(v => job.Sheet.ChangeAt(v) is not null)];
            jobs++;
            shims += changed.Count(v => job.Sheet.ChangeAt(v) is ShimFitted);
            if (job.Follows is null && changed.Length > 0 && changed.All(v => job.Sheet.LastReading(SheetPart.Recheck, v) is not null))
            {
                checkedAgain++;
                passed += job.Record!.Pass ? 1 : 0;
            }
        }

        Table year = await FetchAsync("/year.csv");
        int Sum(string column) => year.Rows.Sum(r => r[year.At(column)].Length == 0 ? 0 : int.Parse(r[year.At(column)], CultureInfo.InvariantCulture));
        Assert.Equal((jobs, checkedAgain, passed, shims), (Sum("jobs"), Sum("checked"), Sum("passed_first_time"), Sum("shims_fitted")));
        // Ten jobs of past work at least, of which the last did not pass.
        Assert.InRange(checkedAgain, 10, 20);
        Assert.InRange(passed, 1, checkedAgain - 1);
        Assert.Equal(shims, Sum("shims_from_drawer") + Sum("shims_bought") + Sum("shims_moved") + Sum("shims_other"));
        Assert.Equal("2025-12-01", year.Rows[0][0]);
        Assert.Equal("2026-11-01", year.Rows[11][0]);
        Assert.Equal(jobs, int.Parse(year.Rows[11][year.At("jobs")], CultureInfo.InvariantCulture));
    }

    private Task<BenchFile?> FileAsync(string template)
    {
        Guid id = template.StartsWith("/jobs", StringComparison.Ordinal) ? _workshop.Failed : template.StartsWith("/feel", StringComparison.Ordinal) ? _workshop.Person : _workshop.Engine;
        return FileAddresses.FetchAsync(_bench, new("http://bench" + template.Replace("{id:guid}", id.ToString(), StringComparison.Ordinal)), _time, "http://bench");
    }

    private async Task<Table> FetchAsync(string template)
    {
        BenchFile file = (await FileAsync(template))!;
        Assert.Equal("text/csv; charset=utf-8", file.ContentType);
        string text = Encoding.UTF8.GetString(file.Content);
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        using CsvParser parser = new(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture));
        List<string[]> rows = [];
        while (parser.Read())
        {
            rows.Add(parser.Record!);
        }

        return new(rows[0], rows[1..]);
    }

    private sealed record Table(string[] Heading, List<string[]> Rows)
    {
        public int At(string column) => Array.IndexOf(Heading, column);
    }
}

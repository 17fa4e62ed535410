using System.Text;
using Bunit;
using Shimwright.Bench.InMemory;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Pages.Records;
using Shimwright.Pages.Tests.Samples;
using Shimwright.Pages.Tests.Served;
using Shimwright.Pages.Wording;
using Shimwright.Testing.Pictures;
using Shimwright.Testing.Staged;
using UglyToad.PdfPig;

namespace Shimwright.Pages.Tests.Records;

/// <summary>A record says the same on its page and in its PDF.</summary>
public class RecordPdfTests
{
    private const string Odd = "Gap 13 µm ± ½ turn, 20 °C; Ångström, Łódź, Žižkov, ŐÜß, Ω, Жук. “Quoted” – so…\nA second line.";

    private static readonly LocalTimes Local = new(TimeZoneInfo.FindSystemTimeZoneById("Europe/Vienna"), new DateTime(2026, 11, 28, 23, 30, 0, DateTimeKind.Utc));

    [Fact]
    public async Task Write_Record_SaysEverySentenceOfThePage()
    {
        RecordPaper paper = await PaperAsync(s => s with
        {
            Record = s.Record with { Notes = Odd, Found = new string('x', 300) + " " + Odd, By = "The shed", Cautions = [Odd.Replace('\n', ' '), "Feel E2 first."] },
            Photos = [new(new("/a", Photo()), "Timing marks: " + Odd[..20])],
        });
        using BunitContext context = new();
        string[] said =
        [
            .. context.Render<RecordSheet>(p => p.Add(s => s.Paper, paper)).FindAll("h2, h3, p, dt, dd, li, th, td, caption, figcaption").Select(e => Bare(e.TextContent)).Where(t => t.Length > 0),
        ];
        using PdfDocument pdf = Read(paper);
        string printed = Bare(string.Concat(pdf.GetPages().Select(p => p.Text)));
        Assert.True(said.Length > 60);
        Assert.All(said, s => Assert.Contains(s, printed, StringComparison.Ordinal));
        Assert.Equal(2, pdf.GetPages().Sum(p => p.GetImages().Count()));
        Assert.Equal(paper.Name, pdf.Information.Title);
    }

    [Fact]
    public async Task Write_SixteenValves_IsOneSheetAndThirtyTwoAreTwo()
    {
        RecordPaper one = await PaperAsync(s => s with { Record = s.Record with { Found = Odd, Notes = Odd, Cautions = [Odd.Replace('\n', ' '), Odd.Replace('\n', ' ')] } }), two = await ManyAsync(2);
        using PdfDocument sixteen = Read(one), more = Read(two), most = Read(await ManyAsync(4));
        Assert.Equal(16, one.Parts.OfType<RecordTable>().Single().Lines.Count);
        Assert.Equal(1, sixteen.NumberOfPages);
        Assert.Equal(2, more.NumberOfPages);
        Assert.Contains("Page2of2", Bare(more.GetPage(2).Text), StringComparison.Ordinal);
        // Who turns the sheet still reads what the columns are.
        Assert.Contains("Verdict", most.GetPage(2).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Write_LongNames_StayOnTheSheet()
    {
        string name = string.Concat(Enumerable.Repeat("Wide", 45));
        RecordPaper paper = await PaperAsync(s => s with
        {
            Record = s.Record with { Engine = name, By = name, Valves = [.. s.Record.Valves.Select(v => v with { Valve = "Valve of a very long name at the back " + v.Valve })] },
            Papers = new(name[..100], name[..100]),
            Workshop = new(name[..100], string.Join('\n', Enumerable.Repeat(name[..60], 6)), null),
        });
        using PdfDocument pdf = Read(paper);
        Assert.All(pdf.GetPages().SelectMany(p => p.Letters.Select(l => (Page: p, Letter: l))), at =>
        {
            Assert.InRange(at.Letter.BoundingBox.Left, PdfSheets.Margin - 1, at.Page.Width);
            Assert.InRange(at.Letter.BoundingBox.Right, 0, at.Page.Width - PdfSheets.Margin + 1);
            Assert.InRange(at.Letter.BoundingBox.Bottom, 20, at.Page.Height - PdfSheets.Margin + 1);
        });
    }

    /// <summary>What passes with a low chance says its chance, and nowhere that it is within its limits or may be outside.</summary>
    [Fact]
    public async Task Of_AValveThatPassesWithALowChance_SaysTheChanceEverywhere()
    {
        RecordPaper paper = await PaperAsync(s =>
        {
            RecordRow[] rows = [.. s.Record.Valves];
            EstimateRow doubtful = rows[0].After! with { InBand = 0.762, Status = "unsettled" };
            rows[0] = rows[0] with { Before = doubtful, After = doubtful, Change = null, Passes = true };
            return s with { Record = s.Record with { Valves = rows, ChanceAll = 0.751 }, Forecast = s.Forecast! with { CheckBy = s.Forecast.Clock } };
        });
        string line = string.Join(' ', paper.Parts.OfType<RecordTable>().Single().Lines[0].Cells);
        Assert.Contains("76.2 %", line, StringComparison.Ordinal);
        Assert.Contains("passes", line, StringComparison.Ordinal);
        Assert.DoesNotContain("within limits", line, StringComparison.Ordinal);
        Assert.Contains("75.1 %. Most doubtful: I1, 76.2 %.", paper.Parts.OfType<RecordSummary>().Single().Text, StringComparison.Ordinal);
        Assert.StartsWith("due now: the chance that a valve is outside", paper.Parts.OfType<RecordFacts>().Single().Facts.Single(f => f.Name == "Next check").Words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_ASecondRound_TellsWhatTheFirstFoundAndFitted()
    {
        RecordPaper paper = await PaperAsync(s => s with
        {
            Earlier = [s.Job with { Record = s.Record with { Found = "Dust in the filter", Valves = [.. s.Record.Valves.Select(v => v.Valve == "I2" ? v with { Passes = false } : v)] } }],
        });
        string[] said = [.. paper.Parts.OfType<RecordText>().Select(t => t.Text)];
        Assert.Contains("Round 1, 2026-11-28, job 1", paper.Parts.OfType<RecordHeading>().Select(h => h.Text));
        Assert.Contains("8 of 16 valves were adjusted. I2 did not pass then.", said);
        Assert.Contains("Dust in the filter", said);
        RecordTable round = paper.Parts.OfType<RecordTable>().Last();
        Assert.Equal(8, round.Lines.Count);
        Assert.Equal(("2.397 out, 2.35 in", ""), round.Lines.Single(l => l.Cells[0].Words == "I2").Cells[2]);
    }

    private static Task<RecordPaper> ManyAsync(int times) => PaperAsync(s => s with
    {
        Record = s.Record with { Valves = [.. Enumerable.Range(0, times).SelectMany(n => s.Record.Valves.Select(v => v with { Valve = $"{n}{v.Valve}" }))] },
    });

    private static PdfDocument Read(RecordPaper paper) => PdfDocument.Open(RecordPdf.Write(paper, Local.Now));

    /// <summary>Without what a line's end may take away, and with joined letters apart.</summary>
    private static string Bare(string text) => new([.. text.Normalize(NormalizationForm.FormKC).Where(c => !char.IsWhiteSpace(c))]);

    private static Picture Photo() => ArrivedPicture.Photo(SamplePicture.Jpeg(400, 300)).Picture!;

    /// <summary>The record of a closed job on sixteen valves, changed by hand.</summary>
    private static async Task<RecordPaper> PaperAsync(Func<RecordSource, RecordSource> change)
    {
        MemoryBench bench = new(new StillTime());
        StagedBench staged = new(bench, Guid.NewGuid);
        ParsedSetup file = JobSetup.FromFile(DemoFile.Read("02-worn-four.json"));
        Guid job = await staged.AddJobAsync(await staged.AddEngineAsync(file), file, JobStage.Closed);
        StoredJob stored = (await bench.Jobs.FindAsync(job, TestContext.Current.CancellationToken))!;
        return RecordPaper.Of(change(new(
            stored, stored.Record!, new("Ferry company", "F-1234"), new("Pump and Engine Works", "Quay 3\nHarbour town", null), new("/logo", ArrivedPicture.Logo(SamplePicture.Png(300, 100)).Picture!),
            [], await bench.Due.FindAsync(stored.Summary.EngineId, TestContext.Current.CancellationToken), [], LengthStyle.Millimetres, Local)));
    }
}

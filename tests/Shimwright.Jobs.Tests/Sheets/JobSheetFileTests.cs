using System.Text;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Testing;

namespace Shimwright.Jobs.Tests.Sheets;

/// <summary>A sheet written as a job file answers as the file that it was taken from.</summary>
public class JobSheetFileTests
{
    public static TheoryData<string> Files() => [.. Demo.Files];

    [Theory]
    [MemberData(nameof(Files))]
    public void Write_DemoJobTakenIn_GivesTheSameAnswers(string file) => AssertSameAnswers(Demo.Text(file));

    [Theory]
    [MemberData(nameof(Files))]
    public void Write_DemoJobWithARecheckTakenIn_GivesTheSameAnswers(string file) => AssertSameAnswers(Demo.WithRecheck(file));

    [Fact]
    public void Write_JobWithEveryMember_GivesTheSameAnswers()
    {
        AssertSameAnswers(Sample.Shims().Text);
        AssertSameAnswers(Sample.Screws().Text);
        AssertSameAnswers(Sample.Shims().Set("$.engine.temperature.kappaMmPerC", "0.001").Set("$.check.temperatureC", "45").Text);
    }

    [Fact]
    [Long]
    public void Write_ManyReadingsOfOneValve_IsStillAJobFileWithTheSameAnswers()
    {
        JobDraft draft = Sample.Shims().Remove("$.recheck");
        string trials = string.Join(',', Enumerable.Repeat("{\"blade\": 0.13, \"feel\": \"light\"}", 400));
        foreach (string turns in (string[])["true", "false", "true"])
        {
            draft.Append("$.check.readings", $$"""{"valve": "I1", "trials": [{{trials}}], "value": 0.14, "bucketTurns": {{turns}}}""");
        }

        AssertSameAnswers(draft.Text);
    }

    [Fact]
    [Long]
    public void Write_AsManyReadingsAsAFileMayHave_IsStillAJobFile()
    {
        JobDraft draft = Sample.Shims().Remove("$.recheck");
        string reading = """{"valve": "I1", "trials": [{"blade": 0.13, "feel": "light"}], "value": 0.14, "bucketTurns": true}""";
        draft.Set("$.check.readings", $"[{string.Join(',', Enumerable.Repeat(reading, 5000))}]");
        Ledger ledger = Ledger.ImportedJob(draft.Text);
        Assert.Equal(15_000, ledger.Sheet.Readings(SheetPart.Check, "I1").Count());
        Assert.Empty(JobFile.Read(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate).Problems);
    }

    [Fact]
    public void Write_SheetTappedFactByFact_AnswersAsTheFileThatSaysTheSame()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new CheckStated(130, 23));
        ledger.Add(new LossSuspected("dust"));
        ledger.Add(new BladeTried(SheetPart.Check, "I1", 0.13, 2, "light"));
        ledger.Add(new ClearanceRead(SheetPart.Check, "E1", 0.17, 0.02));
        ledger.Add(new BucketTurned(SheetPart.Check, "E1", true));
        ledger.Add(new ThicknessFound("I1", 2.6, "marked"));
        ledger.Add(new ThicknessFound("I1", 2.61, "calliper"));
        ledger.Add(new ThicknessFound("E1", 2.7, "marked"));
        ledger.Add(new StockStated([new(2.65, "marked", 3)], [new(2.5, 2.8, 0.05, 4)]));
        ledger.Add(new CostsStated(60, 5, 2, 0, new Dictionary<string, double> { ["intake cam"] = 10 }));
        JobDraft draft = Sample.Shims().Remove("$.recheck").Set("$.check.clock", "130").Set("$.check.temperatureC", "23")
            .Set("$.check.loss", """{"shared": 0.08, "own": 0.02}""")
            .Set("$.check.readings", """
                [{"valve": "I1", "trials": [{"blade": 0.13, "feel": "light", "leaves": 2}]}, {"valve": "E1", "value": 0.17, "u": 0.02, "bucketTurns": true}]
                """)
            .Set("$.check.fitted", """[{"valve": "I1", "thickness": 2.61, "by": "calliper"}, {"valve": "E1", "thickness": 2.7, "by": "marked"}]""")
            .Set("$.stock", """{"drawer": [{"thickness": 2.65, "by": "marked", "count": 3}], "buy": {"from": 2.5, "to": 2.8, "step": 0.05, "price": 4}}""")
            .Set("$.costs", """{"redo": 60, "swap": 5, "minutesPerCurrency": 2, "access": {"intake cam": 10}}""");
        Assert.Equal(Answer(draft.Bytes, JobPurpose.Estimate), Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate));
        Assert.Equal(Answer(draft.Bytes, JobPurpose.Plan), Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Plan));
    }

    [Fact]
    public void Write_UnknownCause_LeavesTheExpectationOfTheSetup()
    {
        Ledger ledger = Ledger.ImportedJob(Sample.Shims().Remove("$.recheck").Set("$.check.loss.shared", "0.07").Text);
        string own = Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate);
        ledger.Add(new LossSuspected("dust"));
        Assert.NotEqual(own, Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate));
        ledger.Add(new LossSuspected("unknown"));
        Assert.Equal(own, Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate));
    }

    [Fact]
    public void Write_SecondShimAtAValve_IsJudgedFromTheFirstOne()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.19, 0.01));
        ledger.Add(new ShimFitted("E1", new(2.70, "calliper"), new(2.68, "micrometer")));
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.24, 0.01));
        ParsedJob reading = JobSheetFile.Read(ledger.Sheet, JobPurpose.Verdict);
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        Assert.Equal((2.75, 2.68), (reading.Job!.Changes.Single().From!.Millimetres, reading.Job.Changes.Single().To!.Millimetres));

        // The clearance found, 0.17 read, plus the 0.07 mm that the shim is thinner; not the 0.02 mm of the second shim alone.
        VerdictRow row = VerdictResult.Of(reading.Job).Valves.Single(v => v.Valve == "E1");
        Assert.InRange(row.Predicted.Mean, 0.23, 0.25);
        Assert.Equal([0.24], reading.Job.Rechecked[1].Values.Select(v => v.Millimetres));
    }

    /// <summary>What was measured at a camshaft in the bench is what a file says of it, in the place of what the job started with.</summary>
    [Fact]
    public void Write_CamshaftsMeasuredInTheBench_AnswerAsTheFileThatSaysTheSame()
    {
        string file = Demo.Text("10-by-depth.json");
        Ledger ledger = Ledger.ImportedJob(file);
        ledger.Add(new CamshaftMeasured("intake cam", new(14.2, 0.004, 4), new(24.958, 0.002, 9), new(30.02, 0.003, 9)));
        Assert.Equal(["exhaust cam", "intake cam"], JobSheetFile.CamshaftNames(ledger.Sheet));
        JobDraft said = new JobDraft(file).Set("$.check.camshafts[0].saddle.value", "14.2").Remove("$.check.camshafts[0].play");
        Assert.Equal(Answer(Encoding.UTF8.GetBytes(said.Text), JobPurpose.Estimate), Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate));

        // Measured once more, as the file had it at first; and the exhaust cam against the valve that it was taken against.
        ledger.Add(new CamshaftMeasured("intake cam", new(14.206, 0.004, 4), new(24.958, 0.002, 9), new(30.02, 0.003, 9), new(0.03, 0.007)));
        ledger.Add(new CamshaftCompared("exhaust cam", "E1", new(16.936, 0.005, 9), new(0.236, 0.007)));
        Assert.Equal(Answer(Encoding.UTF8.GetBytes(file), JobPurpose.Estimate), Answer(JobSheetFile.Write(ledger.Sheet), JobPurpose.Estimate));
    }

    private static void AssertSameAnswers(string json)
    {
        byte[] given = Encoding.UTF8.GetBytes(json);
        JobSheet sheet = Ledger.ImportedJob(json).Sheet;
        byte[] written = JobSheetFile.Write(sheet);
        foreach (JobPurpose purpose in (JobPurpose[])[JobPurpose.Estimate, JobPurpose.Plan, JobPurpose.Verdict])
        {
            Assert.Equal(Answer(given, purpose), Answer(written, purpose));
            Assert.Equal(Answer(given, purpose), Answer(JobSheetFile.Read(sheet, purpose), purpose));
        }
    }

    /// <summary>The answer as JSON, or the problems where the job lacks something.</summary>
    private static string Answer(byte[] file, JobPurpose purpose) => Answer(JobFile.Read(file, purpose), purpose);

    private static string Answer(ParsedJob reading, JobPurpose purpose)
    {
        return reading.Job is not { } job ? string.Join('\n', reading.Problems)
            : purpose switch
            {
                JobPurpose.Estimate => ResultJson.Write(EstimateResult.Of(job), indented: true),
                JobPurpose.Plan => ResultJson.Write(PlanResult.Of(job), indented: true),
                _ => ResultJson.Write(VerdictResult.Of(job), indented: true),
            };
    }
}

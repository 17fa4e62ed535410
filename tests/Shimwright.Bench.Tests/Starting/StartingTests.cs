using System.Text;
using Shimwright.Bench.Engines;
using Shimwright.Bench.InStep;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Starting;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Past;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Starting;

/// <summary>Jobs that begin on an engine, after another job, or out of a file.</summary>
public class StartingTests
{
    [Theory]
    [OnEachBench]
    public async Task OnAsync_EngineWithAClosedJob_StartsWithItsPastAndNotBeforeIt(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        StoredEngine engine = await ClosedAsync(test);
        StartedJob early = await JobStart.OnAsync(test.Bench, engine, new(117, 20), Guid.NewGuid(), "phone", Cancel);
        Assert.Null(early.Job);
        Assert.Contains("the last one known is 118 h", Assert.Single(early.Problems).Found, StringComparison.Ordinal);
        Guid action = Guid.NewGuid();
        StartedJob started = await JobStart.OnAsync(test.Bench, engine, new(150, 20), action, "phone", Cancel);
        Assert.Equal(started.Job, (await JobStart.OnAsync(test.Bench, engine, new(150, 20), action, "phone", Cancel)).Job);
        Assert.NotEmpty((await test.Bench.FindJobAsync(started.Job!.Value)).Sheet.Setup.Start.AllChecks.SkipLast(1));
        Assert.Equal(1, await test.Bench.Jobs.CountOpenAsync(Cancel));
    }

    /// <summary>A clock that ran back is never taken silently; with a reason it is, and what came before says nothing of wear any more.</summary>
    [Theory]
    [OnEachBench]
    public async Task OnAsync_ClockThatRanBack_NeedsAReasonAndBeginsThePastAnew(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        IBench bench = test.Bench;
        StoredEngine engine = await ClosedAsync(test);
        Assert.Null((await JobStart.OnAsync(bench, engine, new(20, 20), "because", Guid.NewGuid(), "phone", Cancel)).Job);
        test.Time.Pass(TimeSpan.FromDays(30));
        StartedJob started = await JobStart.OnAsync(bench, engine, new(20, 20), ClockAnswered.Meter, Guid.NewGuid(), "phone", Cancel);
        StoredJob job = await bench.FindJobAsync(started.Job!.Value);
        Assert.Equal(new ClockAnswered(ClockAnswered.Meter, 118), job.Sheet.Newest<ClockAnswered>());
        Assert.Single(job.Sheet.Setup.Start.AllChecks);

        await bench.MeasureAsync(started.Job.Value);
        await bench.SaveAsync(started.Job.Value, new JobClosed(20, "", "", ""));
        Assert.Contains("The meter was changed since 118", string.Join(' ', (await bench.FindJobAsync(started.Job.Value)).Record!.Cautions), StringComparison.Ordinal);
        Assert.Equal([started.Job.Value], (await bench.Due.PastAsync(engine.Id, Cancel)).Select(p => p.Id));
        Shimwright.Bench.Due.KeptForecast forecast = (await bench.Due.FindAsync(engine.Id, Cancel))!;
        Assert.Equal((1, 20.0), (forecast.Checks, forecast.Clock));
        Assert.NotNull((await JobStart.OnAsync(bench, engine, new(21, 20), Guid.NewGuid(), "phone", Cancel)).Job);

        // A reason where the clock did not run back says nothing.
        StartedJob later = await JobStart.OnAsync(bench, engine, new(90, 20), ClockAnswered.Right, Guid.NewGuid(), "phone", Cancel);
        Assert.Null((await bench.FindJobAsync(later.Job!.Value)).Sheet.Newest<ClockAnswered>());
    }

    [Theory]
    [OnEachBench]
    public async Task StartAsync_OnAnEngineThatIsNotThere_IsRefusedByAnException(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        ArgumentException e = await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.StartJobAsync(Guid.NewGuid()));
        Assert.StartsWith("There is no engine", e.Message, StringComparison.Ordinal);
        Assert.Equal(0, await test.Bench.Jobs.CountOpenAsync(Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task AfterAsync_AskedTwice_StartsOneRound(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        StoredJob job = await WorkedAndClosedAsync(test);
        Guid first = job.Summary.Id;
        StartedJob round = await NextRound.AfterAsync(test.Bench, job, Guid.NewGuid(), "phone", Cancel);
        Assert.Equal(round, await NextRound.AfterAsync(test.Bench, job, Guid.NewGuid(), "tablet", Cancel) with { Problems = round.Problems });
        Assert.Equal(round.Job, (await test.Bench.Jobs.SecondRoundOfAsync(first, Cancel))!.Id);
        Assert.Equal(1, await test.Bench.Jobs.CountOpenAsync(Cancel));
    }

    /// <summary>A phone that was away starts the round that somebody has started at the bench meanwhile.</summary>
    [Theory]
    [OnEachBench]
    public async Task DoAsync_SecondRoundFromAPhone_IsTheOnlyOneAndOfTheSameEngine(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        StoredJob job = await WorkedAndClosedAsync(test);
        Guid first = job.Summary.Id;
        string setup = SecondRound.Of(job.Sheet).Setup!.Json;
        Guid other = await test.Bench.AddEngineAsync("Another");
        DeedWork work = new(test.Bench, "phone", _ => Task.FromResult<IReadOnlySet<Guid>>(new HashSet<Guid>()));
        Assert.Equal(AddOutcome.Refused, (await work.DoAsync(Round(other), Cancel)).Outcome);
        JobStarted round = Round(job.Summary.EngineId);
        Assert.Equal(AddOutcome.Saved, (await work.DoAsync(round, Cancel)).Outcome);
        Assert.Equal(AddOutcome.SavedBefore, (await work.DoAsync(round, Cancel)).Outcome);
        DeedAnswer second = await work.DoAsync(Round(job.Summary.EngineId), Cancel);
        Assert.Equal(AddOutcome.Conflict, second.Outcome);
        Assert.Contains("was started on the bench meanwhile", Assert.Single(second.Problems).Found, StringComparison.Ordinal);
        Assert.Equal(round.Id, (await test.Bench.Jobs.SecondRoundOfAsync(first, Cancel))!.Id);
        Assert.Equal(1, await test.Bench.Jobs.CountOpenAsync(Cancel));

        JobStarted Round(Guid engine) => new(Guid.NewGuid(), DateTime.UnixEpoch, engine, setup, JobPast.SecondRoundOf(first), []);
    }

    [Theory]
    [OnEachBench]
    public async Task RunAsync_FileOfAnEngineThatIsThere_IsLaidUponItUnlessItIsAnother(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        byte[] file = Encoding.UTF8.GetBytes(Demo("02-worn-four.json"));
        Guid action = Guid.NewGuid();
        StartedJob first = await JobImport.RunAsync(test.Bench, file, null, alwaysNew: false, (action, "phone"), Cancel);
        Assert.Equal(first.Job, (await JobImport.RunAsync(test.Bench, file, null, alwaysNew: false, (action, "phone"), Cancel)).Job);
        StartedJob second = await JobImport.RunAsync(test.Bench, file, null, alwaysNew: false, (Guid.NewGuid(), "phone"), Cancel);
        Assert.NotEqual(first.Job, second.Job);
        Assert.Equal(1, await test.Bench.Engines.CountAsync(null, Cancel));
        Guid other = await test.Bench.AddEngineAsync();
        StartedJob wrong = await JobImport.RunAsync(test.Bench, file, other, alwaysNew: false, (Guid.NewGuid(), "phone"), Cancel);
        Assert.Contains("take the file in as a new engine", wrong.Problems[0].Allowed, StringComparison.Ordinal);
        Assert.Contains("no such engine", (await JobImport.RunAsync(test.Bench, file, Guid.NewGuid(), false, (Guid.NewGuid(), "phone"), Cancel)).Problems[0].Found, StringComparison.Ordinal);
        Assert.NotEmpty((await JobImport.RunAsync(test.Bench, "{}"u8.ToArray(), null, false, (Guid.NewGuid(), "phone"), Cancel)).Problems);
        await JobImport.RunAsync(test.Bench, file, null, alwaysNew: true, (Guid.NewGuid(), "phone"), Cancel);
        Assert.Equal(3, await test.Bench.Engines.CountAsync(null, Cancel));
    }

    /// <summary>The answer was lost and the device sends it again.</summary>
    [Theory]
    [OnEachBench]
    public async Task RunAsync_SentTwiceForANewEngine_MakesOne(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        byte[] file = Encoding.UTF8.GetBytes(Demo("02-worn-four.json"));
        Guid action = Guid.NewGuid();
        StartedJob first = await JobImport.RunAsync(test.Bench, file, null, alwaysNew: true, (action, "phone"), Cancel);
        Assert.Equal(first.Job, (await JobImport.RunAsync(test.Bench, file, null, alwaysNew: true, (action, "phone"), Cancel)).Job);
        Assert.Equal(1, await test.Bench.Engines.CountAsync(null, Cancel));
    }

    private static async Task<StoredJob> WorkedAndClosedAsync(TestBench test)
    {
        Guid job = await test.Bench.WorkedJobAsync();
        await test.Bench.SaveAsync(job, new JobClosed(119, "", "", ""));
        return await test.Bench.FindJobAsync(job);
    }

    private static async Task<StoredEngine> ClosedAsync(TestBench test)
    {
        Guid engine = await test.Bench.AddEngineAsync();
        Guid job = await test.Bench.StartJobAsync(engine);
        await test.Bench.MeasureAsync(job);
        await test.Bench.SaveAsync(job, new JobClosed(118, "", "", ""));
        return (await test.Bench.Engines.FindAsync(engine, Cancel))!;
    }
}

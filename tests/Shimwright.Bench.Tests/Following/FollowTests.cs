using System.Text;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Following;
using Shimwright.Bench.InStep;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Settings;
using Shimwright.Testing.Pictures;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Following;

/// <summary>A phone that follows a bench: what holds, what is provisional, what is left out and said.</summary>
public class FollowTests
{
    private static readonly ShimSize Wanted = new(9480, 2400, "micrometer");

    [Theory]
    [OnEachBench]
    public async Task Plan_WhoseShimAnotherPhoneTook_IsLeftOutWithTheShimNamedAndIsPlannedAgain(BenchKind kind)
    {
        await using TestBench shop = await ShopAsync(kind);
        (SimulatedPocket ann, SimulatedPocket bob) = (await PhoneAsync(shop, "Ann's"), await PhoneAsync(shop, "Bob's"));
        Guid first = await MeasuredJobAsync(ann), second = await MeasuredJobAsync(bob);
        foreach ((SimulatedPocket phone, Guid job) in new[] { (ann, first), (bob, second) })
        {
            await phone.Bench.SaveAsync(job, PlanOf((await phone.Bench.FindJobAsync(job)).Sheet));
            Assert.Equal(JobStage.Fit, (await phone.Bench.FindJobAsync(job)).Summary.Stage);
            Assert.Contains(phone.Follower.PendingOf(job).OfType<FactsAdded>().SelectMany(f => f.Read()), f => f is PlanAccepted);
        }

        Assert.True(await ann.StepAsync());
        Assert.True(await bob.StepAsync());
        Assert.Empty(ann.Follower.Left);
        LeftDeed left = Assert.Single(bob.Follower.Left);
        Assert.Equal(AddOutcome.Refused, left.Answer.Outcome);
        Assert.Contains(left.Answer.Problems, p => p.ToString().Contains("2.4 mm (micrometer)", StringComparison.Ordinal));
        Assert.Equal(JobStage.Plan, (await bob.Bench.FindJobAsync(second)).Summary.Stage);
        PlanAccepted again = PlanOf((await bob.Bench.FindJobAsync(second)).Sheet);
        Assert.DoesNotContain(again.Changes, c => c.To is { Thickness: 2.4, By: "micrometer" });
        Assert.Equal(1, (await shop.Bench.Drawer.LotsAsync(Cancel)).Single(l => l.Size == Wanted).Promised);
    }

    [Fact]
    public async Task Conflict_OfTwoPhones_IsSaidWithWhatCameBetweenAndCanBeEnteredAgain()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        (SimulatedPocket ann, SimulatedPocket bob) = (await PhoneAsync(shop, "Ann's"), await PhoneAsync(shop, "Bob's"));
        Guid job = await MeasuredJobAsync(ann);
        await ann.StepAsync();
        await bob.StepAsync();
        await ann.Bench.SaveAsync(job, new ThicknessFound("E1", 2.61, "micrometer"));
        await SeenAsync(bob, job, new ThicknessFound("E1", 2.62, "micrometer"));
        await ann.StepAsync();
        await bob.StepAsync();
        LeftDeed left = Assert.Single(bob.Follower.Left);
        Assert.Equal(AddOutcome.Conflict, left.Answer.Outcome);
        int between = Assert.Single(left.Answer.Unseen);
        Assert.Contains("2.61", bob.Follower.Memory.FactsOf(job).Single(f => f.Number == between).Fact, StringComparison.Ordinal);
        Assert.Equal(2.61, (await bob.Bench.FindJobAsync(job)).Sheet.FoundAt("E1")!.Thickness);

        bob.Open();
        Assert.True((await bob.Follower.AgainAsync(left.Key, (FollowedBench)bob.Bench, "Bob's", Guid.NewGuid()))!.IsTaken);
        Assert.Empty(bob.Follower.Left);
        await bob.StepAsync();
        await ann.StepAsync();
        Assert.Equal(2.62, (await ann.Bench.FindJobAsync(job)).Sheet.FoundAt("E1")!.Thickness);
        Assert.Equal(2.62, (await shop.Bench.FindJobAsync(job)).Sheet.FoundAt("E1")!.Thickness);
    }

    [Fact]
    public async Task Conflict_ThatWasTakenBackOnThePhone_IsSaidToNobody()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        (SimulatedPocket ann, SimulatedPocket bob) = (await PhoneAsync(shop, "Ann's"), await PhoneAsync(shop, "Bob's"));
        Guid job = await MeasuredJobAsync(ann);
        await ann.StepAsync();
        await bob.StepAsync();
        await ann.Bench.SaveAsync(job, new ThicknessFound("E1", 2.61, "micrometer"));
        Guid action = Guid.NewGuid();
        await bob.Bench.Jobs.AddAsync(job, new(action, "Bob's", int.MaxValue, [new ThicknessFound("E1", 2.62, "micrometer")]), Cancel);
        await bob.Bench.SaveAsync(job, new Undone(action));
        await ann.StepAsync();
        await bob.StepAsync();
        Assert.Empty(bob.Follower.Left);
        Assert.Equal(2.61, (await bob.Bench.FindJobAsync(job)).Sheet.FoundAt("E1")!.Thickness);
    }

    [Fact]
    public async Task Page_FromBeforeAStep_HasNotSeenWhatOthersPutBeforeItsOwnEntries()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        (SimulatedPocket ann, SimulatedPocket bob) = (await PhoneAsync(shop, "Ann's"), await PhoneAsync(shop, "Bob's"));
        Guid job = await MeasuredJobAsync(ann);
        await ann.StepAsync();
        await bob.StepAsync();
        await ann.Bench.SaveAsync(job, new ThicknessFound("E1", 2.61, "micrometer"));
        await SeenAsync(bob, job, new JobNoted("own"));
        int shown = (await bob.Bench.FindJobAsync(job)).Sheet.Last;
        await ann.StepAsync();
        await bob.StepAsync();
        // Ann's entry has the number now that Bob's own had on the page that he still looks at.
        AddResult late = await bob.Bench.Jobs.AddAsync(job, new(Guid.NewGuid(), "Bob's", shown, [new ThicknessFound("E1", 2.62, "micrometer")]), Cancel);
        Assert.Equal(AddOutcome.Conflict, late.Outcome);
        Assert.Equal(AddOutcome.Saved, (await bob.Bench.SendAsync(job, "Bob's", shown, new JobNoted("no matter"))).Outcome);
    }

    [Fact]
    public async Task Card_ThatTwoPhonesChanged_KeepsTheFirstAndSaysEveryOtherOne()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        (SimulatedPocket ann, SimulatedPocket bob) = (await PhoneAsync(shop, "Ann's"), await PhoneAsync(shop, "Bob's"));
        await SaveCardAsync(ann, "Ann's note");
        // The second builds upon the first: as many changes as Ann's one and his own one would make must not fit by chance.
        await SaveCardAsync(bob, "Bob's first");
        await SaveCardAsync(bob, "Bob's second");
        await ann.StepAsync();
        await bob.StepAsync();
        Assert.Equal(2, bob.Follower.Left.Count);
        foreach (IBench bench in new[] { shop.Bench, ann.Bench, bob.Bench })
        {
            Assert.Equal("Ann's note", (await EngineOfAsync(bench)).Details.Notes);
        }

        StoredEngine stale = await EngineOfAsync(bob.Bench);
        await SaveCardAsync(bob, "Bob's third");
        Assert.Equal(SaveOutcome.ChangedMeanwhile, await bob.Bench.Engines.SaveAsync((stale.Id, stale.Version, stale.CardVersion), stale.Name, stale.Card, stale.Details, "", null, Cancel));
        await bob.StepAsync();
        Assert.Equal("Bob's third", (await EngineOfAsync(shop.Bench)).Details.Notes);
    }

    [Fact]
    public async Task Bench_ThatWasPutBackFromACopy_IsAnotherOneUntilThePhoneBeginsAnewAndNothingIsLost()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory), restored = await TestBench.OfAsync(BenchKind.Sqlite);
        SimulatedPocket ann = await PhoneAsync(shop, "Ann's");
        BenchContents copy = await shop.Bench.Copies.ContentsAsync(Cancel);
        Guid job = await MeasuredJobAsync(ann);
        Assert.True(await ann.StepAsync());
        await ann.Bench.SaveAsync(job, new JobNoted("not sent yet"));

        Assert.True(await restored.Bench.Copies.TakeInAsync(copy, cancel: Cancel));
        ann.MeetAnother(restored.Bench);
        await Assert.ThrowsAsync<InvalidOperationException>(() => ann.StepAsync());
        Assert.Equal(1, ann.Follower.Pending);
        await ann.Follower.JoinAsync([]);
        Assert.True(await ann.StepAsync());
        Assert.DoesNotContain(ann.Follower.Left, l => l.Deed is not ShimsCounted);
        IReadOnlyList<JobEntry> entries = (await restored.Bench.FindJobAsync(job)).Sheet.Entries;
        Assert.Contains(entries, e => e.Fact is JobNoted { Text: "not sent yet" });
        Assert.Equal(entries.Count, entries.Select(e => FactJson.Write(e.Fact) + e.Action).Distinct().Count());
    }

    [Theory]
    [InlineData(DeviceRole.Reader)]
    [InlineData(DeviceRole.Mechanic)]
    public async Task Deeds_OfADeviceThatMayNot_AreRefusedInWords(DeviceRole role)
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        SimulatedPocket phone = await PhoneAsync(shop, "Cy's", role);
        Guid job = await MeasuredJobAsync(phone);
        await phone.Bench.SaveAsync(job, new JobDiscarded());
        await phone.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.2 }, 0, "Cy's", Cancel);
        await phone.Bench.Engines.RetireAsync((await EngineOfAsync(phone.Bench)).Id, true, Cancel);
        await phone.StepAsync();
        Assert.All(phone.Follower.Left, l => Assert.Equal("device", l.Answer.Problems[0].Path));
        bool isMechanic = role == DeviceRole.Mechanic;
        Assert.Equal(isMechanic ? 3 : 6, phone.Follower.Left.Count);
        Assert.Equal(isMechanic, await shop.Bench.Jobs.FindAsync(job, Cancel) is not null);
        Assert.Null((await EngineOfAsync(shop.Bench)).RetiredAt);
    }

    /// <summary>It would be sent again for ever, and everything after it would wait.</summary>
    [Fact]
    public async Task Deed_OverWhichTheProgramFails_IsLeftOutAndThoseAfterItAreDone()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        Guid other = await shop.Bench.AddEngineAsync("The other pump");
        SimulatedPocket phone = await PhoneAsync(shop, "Ann's");
        await phone.StepAsync();
        Guid first = (await EngineOfAsync(shop.Bench)).Id;
        await phone.Bench.Due.StateUsageAsync(first, 3, Cancel);
        await phone.Bench.Due.StateUsageAsync(other, 7, Cancel);

        phone.MeetAnother(new DyingShop(shop.Bench, int.MaxValue, new IOException("the disk is away")));
        await Assert.ThrowsAsync<IOException>(() => phone.StepAsync());
        Assert.Null(await shop.Bench.Due.StatedUsageAsync(other, Cancel));

        phone.MeetAnother(new DyingShop(shop.Bench, int.MaxValue, new InvalidOperationException("a fault")));
        Assert.True(await phone.StepAsync());
        LeftDeed left = Assert.Single(phone.Follower.Left);
        Assert.Equal((AddOutcome.Refused, "the bench's program failed on it"), (left.Answer.Outcome, left.Answer.Problems.Single().Found));
        Assert.Equal((null, 7.0), (await shop.Bench.Due.StatedUsageAsync(first, Cancel), await shop.Bench.Due.StatedUsageAsync(other, Cancel)));
        Assert.True(await phone.StepAsync());
        Assert.Single(phone.Follower.Left);
    }

    [Fact]
    public async Task Store_ThatTakesNothing_LeavesTheBenchAsItWasKept()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        SimulatedPocket phone = await PhoneAsync(shop, "Ann's");
        Guid job = await MeasuredJobAsync(phone);
        phone.IsFull = true;
        await Assert.ThrowsAnyAsync<IOException>(() => phone.Bench.SaveAsync(job, new JobNoted("no room")));
        Assert.True(phone.Follower.HasFailed);
        await Assert.ThrowsAnyAsync<Exception>(() => phone.StepAsync());
        phone.IsFull = false;
        phone.Open();
        Assert.DoesNotContain((await phone.Bench.FindJobAsync(job)).Sheet.Entries, e => e.Fact is JobNoted);
        Assert.True(await phone.StepAsync());
        Assert.Equal((await phone.Bench.FindJobAsync(job)).Sheet.Last, (await shop.Bench.FindJobAsync(job)).Sheet.Last);
    }

    [Fact]
    public async Task Photo_TakenWithoutANet_IsSentWithItsContent()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Sqlite);
        SimulatedPocket phone = await PhoneAsync(shop, "Ann's");
        Guid job = await MeasuredJobAsync(phone), photo = Guid.NewGuid();
        Picture picture = ArrivedPicture.Photo(SamplePicture.Jpeg(40, 30)).Picture!;
        await phone.Bench.Pictures.AddAsync(photo, job, picture, Cancel);
        await phone.Bench.SaveAsync(job, new PhotoKept(photo, "marks", "", true, false));
        Assert.True(await phone.StepAsync());
        Assert.Empty(phone.Follower.Left);
        Picture? there = await shop.Bench.Pictures.FindAsync(photo, job, Cancel);
        Assert.True(there is { Width: 40, Height: 30 } && there.IsSound());
        // What is no picture is left out and said, whatever it calls itself.
        await phone.Bench.Pictures.AddAsync(Guid.NewGuid(), job, picture, Cancel);
        phone.Spoil = p => p with { Content = [.. p.Content.Take(p.Content.Length / 2)] };
        await phone.StepAsync();
        Assert.Equal("photo", Assert.Single(phone.Follower.Left).Answer.Problems[0].Path);
    }

    [Fact]
    public async Task Leaving_KeepsWhatIsHereAndSendsNoMore()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        SimulatedPocket phone = await PhoneAsync(shop, "Ann's");
        Guid job = await MeasuredJobAsync(phone);
        await phone.Follower.LeaveAsync();
        phone.Open();
        Assert.Null(phone.Follower.Followed);
        Assert.Equal(0, phone.Follower.Pending);
        Assert.NotNull(await phone.Bench.Jobs.FindAsync(job, Cancel));
        Assert.Null(await shop.Bench.Jobs.FindAsync(job, Cancel));
    }

    [Fact]
    public async Task Step_WithNothingOfOthers_HasNothingToShow()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Sqlite);
        (SimulatedPocket ann, SimulatedPocket bob) = (await PhoneAsync(shop, "Ann's"), await PhoneAsync(shop, "Bob's"));
        Guid job = await MeasuredJobAsync(ann);
        await ann.StepAsync();
        Assert.False(ann.HasNews);
        int puts = ann.Puts;
        await ann.StepAsync();
        Assert.False(ann.HasNews);
        Assert.Equal(puts, ann.Puts);
        await bob.StepAsync();
        Assert.True(bob.HasNews);
        await SeenAsync(bob, job, new JobNoted("from Bob"));
        await bob.StepAsync();
        await ann.StepAsync();
        Assert.True(ann.HasNews);
    }

    [Fact]
    public async Task AnotherPage_HearsOfARemovedEngineAndOfAStep()
    {
        await using TestBench shop = await ShopAsync(BenchKind.Memory);
        SimulatedPocket phone = await PhoneAsync(shop, "Ann's");
        Guid job = await MeasuredJobAsync(phone);
        await phone.Bench.SaveAsync(job, PlanOf((await phone.Bench.FindJobAsync(job)).Sheet));
        SimulatedPocket page = phone.AnotherPage();
        await phone.StepAsync();
        await phone.TellAsync(page);
        Assert.Equal(phone.Follower.Followed, page.Follower.Followed);
        Assert.Equal(0, page.Follower.Pending);
        Assert.Equal((await phone.Bench.FindJobAsync(job)).Sheet.Entries.Select(e => (e.Number, e.Device)), (await page.Bench.FindJobAsync(job)).Sheet.Entries.Select(e => (e.Number, e.Device)));

        Guid engine = (await EngineOfAsync(phone.Bench)).Id;
        Assert.Empty(await phone.Bench.Engines.RemoveAsync(engine, "Flood pump 7", Cancel));
        await phone.TellAsync(page);
        Assert.Null(await page.Bench.Engines.FindAsync(engine, Cancel));
        Assert.Equal(0, (await page.Bench.Drawer.LotsAsync(Cancel)).Single(l => l.Size == Wanted).Promised);
        await page.Bench.Drawer.HistoryAsync(Wanted, Cancel);
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("""{"pocket":"00000000-0000-0000-0000-000000000000","now":"2026-03-01T08:00:00Z","bench":"","deeds":[]}""")]
    [InlineData("""{"pocket":"11111111-0000-0000-0000-000000000000","now":"2026-03-01T08:00:00Z","bench":"","deeds":[null]}""")]
    [InlineData("""{"pocket":"11111111-0000-0000-0000-000000000000","now":"2026-03-01T08:00:00Z","bench":"","deeds":[{"deed":"unheard of","id":"11111111-0000-0000-0000-000000000000","at":"2026-03-01T08:00:00Z"}]}""")]
    public void Message_ThatIsNone_IsNotRead(string json) => Assert.Null(StepJson.ReadSent(Encoding.UTF8.GetBytes(json)));

    [Theory]
    [OnEachBench]
    public async Task Changes_TakenInSmallParts_AreAllThatIsThereAndThenWhatIsNew(BenchKind kind)
    {
        await using TestBench shop = await ShopAsync(kind);
        var stepped = (IStepped)shop.Bench;
        Guid engine = (await EngineOfAsync(shop.Bench)).Id, job = await shop.Bench.StartJobAsync(engine), gone = await shop.Bench.AddEngineAsync("To go"), person = Guid.NewGuid();
        await shop.Bench.StartJobAsync(gone);
        await shop.Bench.SaveAsync(job, new JobNoted("a"), new JobNoted("b"));
        await shop.Bench.Feel.AddAsync(person, Guid.NewGuid(), "bench", new Shimwright.Jobs.FeelCalibration.FeelNamed("Sam"), Cancel);
        await shop.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.2 }, 0, "bench", Cancel);
        (StepMark mark, List<BenchContents> parts) = await AllAsync(stepped, StepMark.None);
        BenchContents all = await shop.Bench.Copies.ContentsAsync(Cancel);
        Assert.Equal(all.Facts.Order(ByNumber).Select(f => f.Fact), parts.SelectMany(p => p.Facts).Distinct().Order(ByNumber).Select(f => f.Fact));
        Assert.Equal(all.Engines.Select(e => e.Id).Order(), parts.SelectMany(p => p.Engines).Select(e => e.Id).Distinct().Order());
        Assert.Equal(all.Cards.Select(e => e.Id).Order(), parts.SelectMany(p => p.Cards).Select(e => e.Id).Distinct().Order());
        Assert.Equal(all.Ledger, parts.SelectMany(p => p.Ledger));
        Assert.Equal(all.Settings, parts.SelectMany(p => p.Settings));
        Assert.Equal(all.Feels, parts.SelectMany(p => p.Feels));

        Assert.All((await AllAsync(stepped, mark)).Parts, p => Assert.True(p.IsEmpty && p.Facts.Count + p.Counts.Count + p.Promises.Count == 0));
        await shop.Bench.Engines.RemoveAsync(gone, "To go", Cancel);
        await shop.Bench.SaveAsync(job, new JobNoted("c"));
        (StepMark next, parts) = await AllAsync(stepped, mark);
        Assert.Equal([gone], parts.SelectMany(p => p.Removed));
        Assert.Equal([job], parts.SelectMany(p => p.Jobs).Select(j => j.Id));
        Assert.Equal(3, parts.Sum(p => p.Facts.Count));
        Assert.True(next.Last > mark.Last && next.Bench == mark.Bench);
        // One that has gone on further than the bench, or knows another one, is told everything.
        Assert.NotEmpty((await stepped.SinceAsync(next with { Last = next.Last + 1 }, 100, Cancel)).Rows.Jobs);
        Assert.NotEmpty((await stepped.SinceAsync(next with { Bench = "another" }, 100, Cancel)).Rows.Jobs);
    }

    private static Comparer<KeptFact> ByNumber { get; } = Comparer<KeptFact>.Create((x, y) => (x.Job, x.Number).CompareTo((y.Job, y.Number)));

    private static async Task<(StepMark Mark, List<BenchContents> Parts)> AllAsync(IStepped stepped, StepMark mark)
    {
        List<BenchContents> parts = [];
        StepPart part;
        do
        {
            part = await stepped.SinceAsync(mark, 1, Cancel);
            Assert.True(part.Rows.Jobs.Count <= 1);
            parts.Add(part.Rows);
            mark = part.Mark;
        }
        while (part.HasMore);
        return (mark, parts);
    }

    private static async Task<TestBench> ShopAsync(BenchKind kind)
    {
        TestBench shop = await TestBench.OfAsync(kind);
        await shop.Bench.Engines.AddAsync(Guid.NewGuid(), "Flood pump 7", Card(), new() { ShimDiameter = 9.48 }, cancel: Cancel);
        await shop.Bench.Drawer.CountAsync([new(Wanted, 1)], new(Guid.NewGuid(), "bench"), Cancel);
        return shop;
    }

    private static async Task<SimulatedPocket> PhoneAsync(TestBench shop, string device, DeviceRole role = DeviceRole.Owner)
    {
        SimulatedPocket phone = new(shop.Bench, shop.Time, device, TimeSpan.FromMinutes(3), role);
        await phone.Follower.JoinAsync([]);
        Assert.True(await phone.StepAsync());
        return phone;
    }

    /// <summary>A job whose valve E2 wants the one shim that is in the drawer.</summary>
    private static async Task<Guid> MeasuredJobAsync(SimulatedPocket phone)
    {
        Guid job = await phone.Bench.Jobs.StartAsync((await EngineOfAsync(phone.Bench)).Id, Setup(), [], Guid.NewGuid(), "phone", Cancel);
        await phone.Bench.MeasureAsync(job);
        await phone.Bench.SaveAsync(job, new StockStated([], [], FromShop: true));
        return job;
    }

    private static async Task SeenAsync(SimulatedPocket phone, Guid job, JobFact fact) =>
        Assert.Equal(AddOutcome.Saved, (await phone.Bench.SendAsync(job, "phone", (await phone.Bench.FindJobAsync(job)).Sheet.Last, fact)).Outcome);

    private static async Task SaveCardAsync(SimulatedPocket phone, string notes)
    {
        StoredEngine seen = await EngineOfAsync(phone.Bench);
        Assert.Equal(SaveOutcome.Saved, await phone.Bench.Engines.SaveAsync((seen.Id, seen.Version, seen.CardVersion), seen.Name, seen.Card, seen.Details with { Notes = notes }, "", null, Cancel));
    }

    private static async Task<StoredEngine> EngineOfAsync(IBench bench) =>
        (await bench.Engines.FindAsync((await bench.Engines.ListAsync("Flood", 0, 1, Cancel)).Concat(await bench.Engines.RetiredAsync("Flood", 0, 1, Cancel)).First().Id, Cancel))!;
}

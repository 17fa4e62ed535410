using Shimwright.Testing;
using Shimwright.Testing.Benches;
using Shimwright.Testing.Shed;

namespace Shimwright.Storage.Tests.Drawer;

/// <summary>
/// A small shed: ten engines, two jobs at a time from one drawer that has too little, and the database failing again and
/// again in between. After every step the ledger adds up, no shim is in two places, and the bench's counts are those of the shims that
/// the simulation moves about by itself. <c>bench/Shimwright.Year</c> is the same with two hundred engines and a program that is killed.
/// </summary>
public class ShedTests
{
    private const int Engines = 10;
    private static readonly int Jobs = Effort.Cases(20, 200);
    private const int PointsBetweenBreaks = 120;

    [Theory]
    [Long]
    [OnEachDatabase]
    public async Task Jobs_WhileTheDatabaseFails_TheLedgerBalancesAndNoShimIsInTwoPlaces(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        using BrokenOff broken = new(815, PointsBetweenBreaks, kind == DatabaseKind.Postgres ? database.Address : null);
        // On a server the one who looks has connections of its own: those of the others are cut.
        DrawerAudit audit = new(kind == DatabaseKind.Postgres ? BenchDatabase.At($"{database.Address};Application Name=audit", database.Time) : database.Another());
        HireShed shed = new(new Stubborn(broken, () => new StoredShed(database.Another())), audit, 4_711, Engines, stands: 2);
        await shed.OpenAsync(perWeek: 7, from: 1.9, to: 2.7, each: 1);
        for (int started = 0; shed.Closed < Jobs;)
        {
            while (shed.FreeStands > 0 && started < Jobs)
            {
                shed.Engines[started % Engines].Run(30);
                shed.Start(shed.Engines[started++ % Engines]);
            }

            await shed.TickAsync();
        }

        await shed.StocktakeAsync();
        await audit.LookAsync(afresh: true);
        Assert.True(broken.Breaks > Jobs, $"Only {broken.Breaks} things were broken off.");
        Assert.True(broken.Unheard > Jobs / 10, $"Of {broken.Breaks} things broken off {broken.Unheard} were kept that nobody heard of.");
        Assert.True(shed.Tally.Taken > Jobs / 6, $"Only {shed.Tally.Taken} shims came out of the drawer.");
    }

    /// <summary>Somebody who sends again what was not answered, under the same action.</summary>
    private sealed class Stubborn(BrokenOff broken, Func<IShedBench> connect) : IShedBench
    {
        private const int Most = 50;

        public async Task<ShedAnswer> AskAsync(ShedCall call)
        {
            broken.Begin();
            for (int times = 1; ; times++)
            {
                try
                {
                    return await connect().AskAsync(call);
                }
                catch (Exception e) when (BrokenOff.Made(e) && times < Most)
                {
                    // Not answered; whether it was kept nobody knows.
                }
            }
        }
    }
}

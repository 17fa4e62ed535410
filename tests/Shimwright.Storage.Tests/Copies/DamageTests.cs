using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Shimwright.Storage.Copies;
using Shimwright.Storage.Database;
using Shimwright.Testing;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Copies;

/// <summary>A file that was damaged is not opened as if nothing had happened.</summary>
public partial class DamageTests
{
    private static readonly int Files = Effort.Cases(80, 400);

    /// <summary>Each is refused, or what it says is what it said before: the damage lay where nothing is kept.</summary>
    [Fact]
    [Long]
    public async Task PrepareAsync_FilesDamagedInEveryWay_AreRefusedOrSayWhatTheySaidBefore()
    {
        await using TestDatabase whole = await WholeBench.OnAsync(DatabaseKind.Sqlite);
        string folder = Path.GetDirectoryName(whole.Address)!, copy = Path.Combine(folder, "copy.db"), damaged = Path.Combine(folder, "damaged.db");
        await whole.Bench.BackUpAsync(copy, replaces: false, cancel: Cancel);
        byte[] sound = await File.ReadAllBytesAsync(copy, Cancel);
        IReadOnlyList<string> said = Kept(await whole.Bench.LinesAsync());
        Random random = new(2_718);
        int refused = 0;
        for (int n = 0; n < Files; n++)
        {
            SqliteCopy.Delete(damaged);
            await File.WriteAllBytesAsync(damaged, Damaged(sound, n % 6, random), Cancel);
            BenchDatabase bench = BenchDatabase.At(damaged, whole.Time);
            try
            {
                await bench.PrepareAsync(Cancel);
                Assert.Equal(said, Kept(await bench.LinesAsync()));
            }
            catch (BenchDatabaseException e)
            {
                Assert.StartsWith(damaged, e.Message, StringComparison.Ordinal);
                refused++;
            }

            await whole.CloseAsync();
        }

        Assert.True(refused > Files / 2, $"Only {refused} of {Files} were refused.");
    }

    [Theory]
    [OnEachDatabase]
    public async Task CheckAsync_RowsChangedBehindTheProgram_NamesEach(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.SaveAsync(job, new Shimwright.Jobs.Facts.JobNoted("one"), new Shimwright.Jobs.Facts.JobNoted("two"));
        Assert.True((await database.Bench.CheckAsync(cancel: Cancel)).IsSound);
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync(kind == DatabaseKind.Sqlite ? "DROP TRIGGER facts_no_update" : "ALTER TABLE facts DISABLE TRIGGER USER", Cancel);
            await context.Database.ExecuteSqlRawAsync("UPDATE facts SET \"Fact\" = replace(\"Fact\", 'two', 'ten') WHERE \"Number\" = 2", Cancel);
            await context.Database.ExecuteSqlRawAsync("UPDATE engines SET \"Name\" = 'Flood pump 8'", Cancel);
        }

        SoundReport report = await database.Bench.CheckAsync(cancel: Cancel);
        Assert.Equal(2, report.Damage.Count);
        Assert.StartsWith("the engine \"Flood pump 8\"", report.Damage[0], StringComparison.Ordinal);
        Assert.StartsWith($"fact 2 of the job of 2026-03-01 on \"Flood pump 8\" ({job})", report.Damage[1], StringComparison.Ordinal);
        if (kind == DatabaseKind.Sqlite)
        {
            Assert.Contains("fact 2 of the job", (await Assert.ThrowsAsync<BenchDatabaseException>(() => database.Another().PrepareAsync(Cancel))).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task CheckAsync_RowsThatAreMissing_AreNamed()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.SaveAsync(job, new Shimwright.Jobs.Facts.JobNoted("one"), new Shimwright.Jobs.Facts.JobNoted("two"));
        await database.Bench.Drawer.AddAsync(new(Shimwright.Bench.Drawer.ShimSize.Of(9.48, 2.5, "marked"), 3), new(Guid.NewGuid(), "phone"), Cancel);
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync("DROP TRIGGER facts_no_delete; DROP TRIGGER shim_moves_no_delete; DELETE FROM facts WHERE \"Number\" = 1; DELETE FROM shim_moves", Cancel);
        }

        string damage = string.Join('\n', (await database.Bench.CheckAsync(cancel: Cancel)).Damage);
        Assert.Contains("found it after 0", damage, StringComparison.Ordinal);
        Assert.Contains("found 1 facts; its count says 2", damage, StringComparison.Ordinal);
        Assert.Contains("found 0 entries; its count says 1", damage, StringComparison.Ordinal);
    }

    /// <summary>Rows without what follows from other rows: promises, and what forecasts rest on.</summary>
    private static IReadOnlyList<string> Kept(IEnumerable<string> lines) =>
        [.. lines.Where(l => !l.StartsWith("promises", StringComparison.Ordinal)).Select(l => Follows().Replace(l, ""))];

    private static byte[] Damaged(byte[] sound, int how, Random random)
    {
        const int Page = 4096;
        byte[] bytes = [.. sound];
        int at = random.Next(bytes.Length), pages = bytes.Length / Page;
        switch (how)
        {
            case 0:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case 1:
                // Letters, so that the text is still text.
                for (int n = at; n < Math.Min(at + 3, bytes.Length); n++)
                {
                    bytes[n] = (byte)('a' + random.Next(26));
                }

                break;
            case 2:
                bytes.AsSpan(at, Math.Min(512, bytes.Length - at)).Clear();
                break;
            case 3:
                return bytes[..at];
            case 4:
                int page = random.Next(pages), other = random.Next(pages);
                sound.AsSpan(page * Page, Page).CopyTo(bytes.AsSpan(other * Page));
                break;
            default:
                random.NextBytes(bytes.AsSpan(at / Page * Page, Page));
                break;
        }

        return bytes;
    }

    [GeneratedRegex("\"(changes|perWeek)\":[^,}]*", RegexOptions.CultureInvariant)]
    private static partial Regex Follows();
}

using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>The tables by which others keep in step. They belong to the place: no archive has them.</summary>
internal static class StepModel
{
    /// <summary>The kinds of changes, as the triggers write them.</summary>
    public const string Engine = "engine", Card = "card", Job = "job", Feel = "feel", Picture = "picture", Drawer = "drawer", Settings = "settings";

    /// <summary>The id of the one row of <see cref="StepCountRow"/>.</summary>
    public const int Only = 1;

    private const int LongestKind = 20, LongestKey = 40;

    public static void Add(ModelBuilder model)
    {
        model.Entity<StepCountRow>(step =>
        {
            step.ToTable("steps");
            step.Property(s => s.Id).ValueGeneratedNever();
            step.Property(s => s.Bench).HasMaxLength(LongestKey);
        });
        model.Entity<ChangeRow>(change =>
        {
            change.ToTable("changes");
            change.HasKey(c => new { c.Kind, c.Key });
            change.Property(c => c.Kind).HasMaxLength(LongestKind);
            change.Property(c => c.Key).HasMaxLength(LongestKey);
            change.HasIndex(c => c.At);
        });
        model.Entity<HeardRow>(heard =>
        {
            heard.ToTable("heard_deeds");
            heard.HasKey(h => h.Deed);
            heard.Property(h => h.Deed).ValueGeneratedNever();
            heard.Property(h => h.Device).HasMaxLength(BenchContext.LongestName);
        });
    }

    /// <summary>Makes another bench of it for those who followed: what they know is no longer what is here.</summary>
    public static async Task RenewAsync(BenchContext context, CancellationToken cancel)
    {
        string bench = Guid.NewGuid().ToString("N");
        await context.Steps.ExecuteUpdateAsync(s => s.SetProperty(r => r.Bench, bench), cancel);
    }
}

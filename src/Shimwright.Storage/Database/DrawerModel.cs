using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>The drawer's tables.</summary>
internal static class DrawerModel
{
    public const int Only = 1;

    private const int LongestInstrument = 20;

    public static void Add(ModelBuilder model)
    {
        model.Entity<DrawerRow>(drawer =>
        {
            drawer.ToTable("drawer");
            drawer.Property(d => d.Id).ValueGeneratedNever();
            drawer.HasData(new DrawerRow { Id = Only });
        });
        model.Entity<ShimMoveRow>(move =>
        {
            move.ToTable("shim_moves");
            move.HasKey(m => m.Number);
            move.Property(m => m.Number).ValueGeneratedNever();
            move.Property(m => m.By).HasMaxLength(LongestInstrument);
            move.Property(m => m.Place).HasMaxLength(BenchContext.LongestName);
            move.Property(m => m.Device).HasMaxLength(BenchContext.LongestName);
            move.HasOne<JobRow>().WithMany().HasForeignKey(m => m.JobId).OnDelete(DeleteBehavior.Restrict);
            move.HasOne<ShimMoveRow>().WithMany().HasForeignKey(m => m.Undoes).OnDelete(DeleteBehavior.Restrict);
            move.HasIndex(m => new { m.Diameter, m.Thickness, m.By });
            move.HasIndex(m => m.Action);
            move.HasIndex(m => m.Undoes).IsUnique();
        });
        model.Entity<ShimPromiseRow>(promise =>
        {
            promise.ToTable("shim_promises");
            promise.HasKey(p => new { p.JobId, p.Diameter, p.Thickness, p.By });
            promise.Property(p => p.By).HasMaxLength(LongestInstrument);
            promise.HasOne<JobRow>().WithMany().HasForeignKey(p => p.JobId).OnDelete(DeleteBehavior.Cascade);
        });
    }
}

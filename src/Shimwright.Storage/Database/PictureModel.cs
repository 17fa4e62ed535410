using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Contents;

namespace Shimwright.Storage.Database;

/// <summary>The tables of counts and pictures.</summary>
internal static class PictureModel
{
    private const int LongestType = 20;

    public static void Add(ModelBuilder model)
    {
        model.Entity<CountRow>(count =>
        {
            count.ToTable("counts");
            count.HasKey(c => c.Name);
            count.Property(c => c.Name).HasMaxLength(LongestType);
            count.HasData(new CountRow { Name = KeptCount.Jobs });
        });
        model.Entity<PictureRow>(picture =>
        {
            picture.ToTable("pictures");
            picture.Property(p => p.Id).ValueGeneratedNever();
            picture.Property(p => p.ContentType).HasMaxLength(LongestType);
            picture.HasOne<JobRow>().WithMany().HasForeignKey(p => p.JobId).OnDelete(DeleteBehavior.Restrict);
            picture.HasIndex(p => p.JobId);
        });
    }
}

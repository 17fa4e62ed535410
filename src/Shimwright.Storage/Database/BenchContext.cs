using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using Shimwright.Bench.Engines;

namespace Shimwright.Storage.Database;

/// <summary>The one model of what is kept; each database has a thin context of its own with its migrations.</summary>
internal abstract class BenchContext(DbContextOptions options) : DbContext(options), IDataProtectionKeyContext
{
    /// <summary>The most characters of a name.</summary>
    public const int LongestName = 200;

    public DbSet<CardRow> Cards => Set<CardRow>();

    public DbSet<EngineRow> Engines => Set<EngineRow>();

    public DbSet<JobRow> Jobs => Set<JobRow>();

    public DbSet<FactRow> Facts => Set<FactRow>();

    public DbSet<SettingsRow> Settings => Set<SettingsRow>();

    public DbSet<KeptForecastRow> Forecasts => Set<KeptForecastRow>();

    public DbSet<CardRatesRow> CardRates => Set<CardRatesRow>();

    public DbSet<ShimMoveRow> ShimMoves => Set<ShimMoveRow>();

    public DbSet<ShimPromiseRow> ShimPromises => Set<ShimPromiseRow>();

    public DbSet<FeelRow> Feels => Set<FeelRow>();

    public DbSet<CountRow> Counts => Set<CountRow>();

    public DbSet<PictureRow> Pictures => Set<PictureRow>();

    public DbSet<RemovedJobRow> RemovedJobs => Set<RemovedJobRow>();

    public DbSet<StepCountRow> Steps => Set<StepCountRow>();

    public DbSet<ChangeRow> Changes => Set<ChangeRow>();

    public DbSet<HeardRow> HeardDeeds => Set<HeardRow>();

    public DbSet<DeviceRow> Devices => Set<DeviceRow>();

    public DbSet<DeviceCodeRow> DeviceCodes => Set<DeviceCodeRow>();

    public DbSet<DoorRow> Doors => Set<DoorRow>();

    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    /// <inheritdoc/>
    public override int SaveChanges(bool acceptAllChangesOnSuccess)
    {
        SumWhatIsWritten();
        return base.SaveChanges(acceptAllChangesOnSuccess);
    }

    /// <inheritdoc/>
    public override Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        SumWhatIsWritten();
        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    /// <summary>Times are ticks in UTC on every database, so that they sort alike.</summary>
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcTicks>();

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<CardRow>(card =>
        {
            card.ToTable("cards");
            card.Property(c => c.Id).ValueGeneratedNever();
            card.Property(c => c.Title).HasMaxLength(LongestName);
            card.Property(c => c.Version).IsConcurrencyToken();
        });
        modelBuilder.Entity<EngineRow>(engine =>
        {
            engine.ToTable("engines");
            engine.Property(e => e.Id).ValueGeneratedNever();
            engine.Property(e => e.Name).HasMaxLength(LongestName);
            engine.Property(e => e.Search).HasMaxLength(LongestName);
            engine.Property(e => e.Owner).HasMaxLength(EnginePapers.Longest);
            engine.Property(e => e.Frame).HasMaxLength(EnginePapers.Longest);
            engine.Property(e => e.Version).IsConcurrencyToken();
            engine.HasOne(e => e.Card).WithMany().HasForeignKey(e => e.CardId).OnDelete(DeleteBehavior.Restrict);
            engine.HasIndex(e => e.Search);
        });
        modelBuilder.Entity<JobRow>(job =>
        {
            job.ToTable("jobs");
            job.Property(j => j.Id).ValueGeneratedNever();
            job.Property(j => j.Last).IsConcurrencyToken();
            job.HasOne(j => j.Engine).WithMany().HasForeignKey(j => j.EngineId).OnDelete(DeleteBehavior.Restrict);
            job.HasIndex(j => new { j.EngineId, j.StartedAt });
            job.HasIndex(j => new { j.ClosedAt, j.ChangedAt });
            job.HasIndex(j => j.Action).IsUnique();
            job.HasIndex(j => j.Number).IsUnique();
        });
        modelBuilder.Entity<FactRow>(fact =>
        {
            fact.ToTable("facts");
            fact.HasKey(f => new { f.JobId, f.Number });
            fact.HasOne<JobRow>().WithMany().HasForeignKey(f => f.JobId).OnDelete(DeleteBehavior.Restrict);
            fact.HasIndex(f => new { f.JobId, f.Action });
            fact.Property(f => f.Device).HasMaxLength(LongestName);
        });
        modelBuilder.Entity<SettingsRow>(settings =>
        {
            settings.ToTable("settings");
            settings.HasKey(s => s.Version);
            settings.Property(s => s.Version).ValueGeneratedNever();
            settings.Property(s => s.Device).HasMaxLength(LongestName);
        });
        modelBuilder.Entity<FeelRow>(feel =>
        {
            feel.ToTable("feels");
            feel.HasKey(f => new { f.PersonId, f.Number });
            feel.HasIndex(f => new { f.PersonId, f.Action }).IsUnique();
            feel.Property(f => f.Device).HasMaxLength(LongestName);
        });
        modelBuilder.Entity<KeptForecastRow>(forecast =>
        {
            forecast.ToTable("forecasts");
            forecast.HasKey(f => f.EngineId);
            forecast.Property(f => f.EngineId).ValueGeneratedNever();
            forecast.HasOne<EngineRow>().WithOne().HasForeignKey<KeptForecastRow>(f => f.EngineId).OnDelete(DeleteBehavior.Cascade);
            forecast.HasIndex(f => f.DueAt);
        });
        modelBuilder.Entity<CardRatesRow>(rates =>
        {
            rates.ToTable("card_rates");
            rates.HasKey(r => r.CardId);
            rates.Property(r => r.CardId).ValueGeneratedNever();
            rates.Property(r => r.Version).IsConcurrencyToken();
            rates.HasOne<CardRow>().WithOne().HasForeignKey<CardRatesRow>(r => r.CardId).OnDelete(DeleteBehavior.Cascade);
        });
        modelBuilder.Entity<RemovedJobRow>(removed =>
        {
            removed.ToTable("removed_jobs");
            removed.HasKey(r => r.JobId);
            removed.Property(r => r.JobId).ValueGeneratedNever();
        });
        DrawerModel.Add(modelBuilder);
        PictureModel.Add(modelBuilder);
        DeviceModel.Add(modelBuilder);
        StepModel.Add(modelBuilder);
    }

    private void SumWhatIsWritten()
    {
        foreach (EntityEntry<ISummed> entry in ChangeTracker.Entries<ISummed>())
        {
            if (entry.State is EntityState.Added or EntityState.Modified)
            {
                entry.Entity.Sum = RowSum.Of(entry.Entity);
            }
        }
    }

    private sealed class UtcTicks() : ValueConverter<DateTime, long>(
        at => at.ToUniversalTime().Ticks, ticks => new DateTime(ticks, DateTimeKind.Utc));
}

/// <summary>The model on SQLite.</summary>
internal sealed class SqliteBench : BenchContext
{
    public SqliteBench(DbContextOptions<SqliteBench> options)
        : base(options) =>
        // Every save ends with a commit, after which it is looked whether the file is still there.
        Database.AutoTransactionBehavior = AutoTransactionBehavior.Always;
}

/// <summary>The model on PostgreSQL.</summary>
internal sealed class PostgresBench(DbContextOptions<PostgresBench> options) : BenchContext(options)
{
    /// <summary>Names sort by their code points, as they do on SQLite, whatever language the server was set up for.</summary>
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        base.OnModelCreating(modelBuilder);
        modelBuilder.Entity<EngineRow>().Property(e => e.Search).UseCollation("C");
    }
}

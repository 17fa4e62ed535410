using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Shimwright.Bench;
using Shimwright.Bench.Copies;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.InStep;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Settings;
using Shimwright.Storage.Copies;
using Shimwright.Storage.Database;
using Shimwright.Storage.Devices;
using Shimwright.Storage.Drawer;
using Shimwright.Storage.Due;
using Shimwright.Storage.Engines;
using Shimwright.Storage.FeelCalibration;
using Shimwright.Storage.InStep;
using Shimwright.Storage.Jobs;
using Shimwright.Storage.Marks;
using Shimwright.Storage.Orders;
using Shimwright.Storage.Photos;
using Shimwright.Storage.Settings;

namespace Shimwright.Storage;

/// <summary>The database of a bench: a SQLite file, or a PostgreSQL server that several benches share.</summary>
public sealed partial class BenchDatabase : IBench, IStepped
{
    /// <summary>How much of the damage a start names.</summary>
    private const int DamageInWords = 20;

    /// <summary>With less room on the disk the bench is not well, bytes.</summary>
    private const long LeastRoom = 2 * 1024 * 1024;

    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;
    private readonly FileKeeper? _keeper;
    private readonly SheetReader _sheets;
    private readonly StepStore _steps;
    private readonly BenchCopies _copies;

    private BenchDatabase(string description, (string? File, string? Server) at, TimeProvider time, Func<BenchContext> open, FileKeeper? keeper, BenchDatabase? same = null)
    {
        string? file = at.File;
        Description = description;
        File = file;
        _time = time;
        _open = open;
        _keeper = keeper;
        _sheets = same?._sheets ?? new SheetReader();
        SheetReader sheets = _sheets;
        Engines = new EngineStore(open, time);
        News = same?.News ?? new JobNews(at.Server, time);
        Jobs = new JobStore(open, sheets, News, time);
        Settings = new SettingsStore(open, time);
        Drawer = new DrawerStore(open, time);
        Orders = new OrderStore(open, Drawer, Settings, time);
        Marks = new MarkStore(open, sheets);
        Feel = new FeelStore(open, time);
        Pictures = new PictureStore(open, time);
        Due = new DueStore(open, sheets, Settings, time);
        Devices = new DeviceStore(open, time);
        _steps = new StepStore(open);
        _copies = new BenchCopies(open, (description, Id, file), Settings, time);
    }

    /// <summary>The user's data folder, where what has no other place is kept.</summary>
    public static string DataFolder => UserFolder.Data;

    /// <summary>What it is, for people, without a password.</summary>
    public string Description { get; }

    /// <summary>A short name for it, the same at every start: twelve digits and letters.</summary>
    public string Id => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Description)))[..12];

    /// <summary>The SQLite file, or null.</summary>
    public string? File { get; }

    /// <inheritdoc/>
    public IEngines Engines { get; }

    /// <inheritdoc/>
    public IJobs Jobs { get; }

    /// <inheritdoc/>
    public IDue Due { get; }

    /// <inheritdoc/>
    public IDrawer Drawer { get; }

    /// <inheritdoc/>
    public IOrders Orders { get; }

    /// <inheritdoc/>
    public IMarks Marks { get; }

    /// <inheritdoc/>
    public IFeel Feel { get; }

    /// <inheritdoc/>
    public IPictures Pictures { get; }

    /// <inheritdoc/>
    public ISettings Settings { get; }

    /// <inheritdoc/>
    public ICopies Copies => _copies;

    /// <summary>What was added to jobs, as it happens.</summary>
    public JobNews News { get; }

    /// <summary>Asks how far a job has come, without the job.</summary>
    /// <param name="job">The job.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The number of its last fact; null where there is no such job.</returns>
    public async Task<int?> LastFactAsync(Guid job, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await context.Jobs.Where(j => j.Id == job).Select(j => (int?)j.Last).FirstOrDefaultAsync(cancel);
    }

    /// <summary>The devices that were let in.</summary>
    public DeviceStore Devices { get; }

    /// <summary>The database at an address.</summary>
    /// <param name="address">A path of a SQLite file, or the connection text of a PostgreSQL server ("Host=…").</param>
    /// <param name="time">The clock.</param>
    /// <returns>The database; nothing is opened yet.</returns>
    /// <exception cref="BenchDatabaseException">The connection text cannot be read.</exception>
    public static BenchDatabase At(string address, TimeProvider time)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(address);
        ArgumentNullException.ThrowIfNull(time);
        if (address.StartsWith("postgres://", StringComparison.OrdinalIgnoreCase) || address.StartsWith("postgresql://", StringComparison.OrdinalIgnoreCase))
        {
            throw BenchDatabaseException.OfAddress(new ArgumentException("an address of the form postgres://… is not read here"));
        }

        return IsServer(address) ? OnPostgres(address, time) : OnSqlite(Path.GetFullPath(address), time);
    }

    /// <summary>Brings the tables up to this program's state; a SQLite file is copied aside first where anything changes.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The copy that was set aside, or null.</returns>
    /// <exception cref="BenchDatabaseException">The database cannot be used; the message says which, why, and what to do.</exception>
    public async Task<string?> PrepareAsync(CancellationToken cancel = default)
    {
        return await SayingWhyAsync(async () =>
        {
            await using BenchContext context = _open();
            string? copy = null;
            if (File is not null)
            {
                copy = await new SqliteFile(File, _time).PrepareAsync(context, cancel);
            }
            else
            {
                await Upgrade.RunAloneAsync((PostgresBench)context, Description, cancel);
            }

            await SumFill.RunAsync(context, cancel);
            if (File is not null && await Soundness.OfSumsAsync(context, cancel) is { IsSound: false } report)
            {
                throw BenchDatabaseException.Damaged(File, report.InWords(DamageInWords));
            }

            return copy;
        });
    }

    /// <summary>Whether the database answers and takes what is written; fails where it does not.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether it does.</returns>
    public async Task<bool> AnswersAsync(CancellationToken cancel = default)
    {
        if (File is not null)
        {
            _keeper!.Check();
            if (Path.GetPathRoot(File) is not null && new DriveInfo(Path.GetDirectoryName(File)!).AvailableFreeSpace < LeastRoom)
            {
                // A small write may still find its place where a job's save does not.
                throw BenchDatabaseException.NoRoom(File);
            }

            await SqliteFile.TryToWriteAsync(File, cancel);
            return true;
        }

        await using BenchContext context = _open();
        return await context.Database.CanConnectAsync(cancel);
    }

    internal BenchContext NewContext() => _open();

    private static BenchDatabase OnSqlite(string file, TimeProvider time)
    {
        FileKeeper keeper = new(file);
        return new(file, (file, null), time, Contexts.OnFile(file, keeper), keeper);
    }

    private static BenchDatabase OnPostgres(string address, TimeProvider time)
    {
        NpgsqlConnectionStringBuilder builder;
        try
        {
            builder = new(address);
        }
        catch (Exception e) when (e is ArgumentException or FormatException or KeyNotFoundException)
        {
            throw BenchDatabaseException.OfAddress(e);
        }

        if (string.IsNullOrWhiteSpace(builder.Host))
        {
            throw BenchDatabaseException.OfAddress(new ArgumentException("it names no host"));
        }

        builder.Database ??= "shimwright";

        return new($"PostgreSQL database {builder.Database} on {builder.Host}", (null, builder.ToString()), time, Contexts.OnServer(builder.ToString()), null);
    }
}

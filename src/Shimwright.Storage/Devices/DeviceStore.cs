using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Devices;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Devices;

/// <summary>The devices that were let in, and the door by which they come. Codes and tokens are kept as hashes.</summary>
public sealed class DeviceStore
{
    /// <summary>A token has 256 bits.</summary>
    private const int TokenBytes = 32;

    /// <summary>When a device was last used is written no oftener.</summary>
    private static readonly TimeSpan UseIsKept = TimeSpan.FromHours(1);

    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    internal DeviceStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
        _time = time;
    }

    /// <summary>The devices and programs, those used last first; those sent away after the others.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The devices.</returns>
    public async Task<IReadOnlyList<Device>> ListAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return [.. (await context.Devices.AsNoTracking().OrderBy(d => d.RevokedAt != null).ThenByDescending(d => d.UsedAt).ThenBy(d => d.Id).ToListAsync(cancel)).Select(DeviceOf)];
    }

    /// <summary>The device that shows a token.</summary>
    /// <param name="token">The token.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The device; null where there is none, it was sent away, or it was not used for too long.</returns>
    public async Task<FoundDevice?> FindAsync(string token, CancellationToken cancel = default)
    {
        string hash = HashOf(token);
        await using BenchContext context = _open();
        DateTime now = Now;
        if (await context.Devices.AsNoTracking().FirstOrDefaultAsync(d => d.TokenHash == hash, cancel) is not { } row || !DeviceOf(row).IsIn(now))
        {
            return null;
        }

        bool isRenewed = now - row.UsedAt >= UseIsKept;
        if (isRenewed)
        {
            await context.Devices.Where(d => d.Id == row.Id).ExecuteUpdateAsync(s => s.SetProperty(d => d.UsedAt, now), cancel);
            row.UsedAt = now;
        }

        return new(DeviceOf(row), isRenewed);
    }

    /// <summary>Whether a device is still let in.</summary>
    /// <param name="id">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether it is.</returns>
    public async Task<bool> IsInAsync(Guid id, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await context.Devices.AsNoTracking().FirstOrDefaultAsync(d => d.Id == id, cancel) is { } row && DeviceOf(row).IsIn(Now);
    }

    /// <summary>Makes a code that lets one device in.</summary>
    /// <param name="role">What the device may do.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The code.</returns>
    public async Task<OneTimeCode> MakeCodeAsync(DeviceRole role, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        DateTime now = Now;
        await context.DeviceCodes.Where(c => c.EndsAt < now).ExecuteDeleteAsync(cancel);
        OneTimeCode code = new(OneTimeCode.NewText(), role, now + OneTimeCode.Lasts);
        context.DeviceCodes.Add(new() { Hash = HashOf(code.Text), Role = (int)role, EndsAt = code.EndsAt });
        await context.SaveChangesAsync(cancel);
        return code;
    }

    /// <summary>Lets a device in by a code, which is then used up.</summary>
    /// <param name="code">What was typed.</param>
    /// <param name="name">What the device is called.</param>
    /// <param name="person">Who works with it.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    public async Task<LetIn> LetInAsync(string code, string name, string person, CancellationToken cancel = default)
    {
        string hash = HashOf(OneTimeCode.Read(code));
        string token = NewToken(), mine = HashOf(token);
        await using BenchContext context = _open();
        return await context.InTransactionAsync(
            async transaction =>
            {
                // Tried again after the connection broke: the first attempt may have been kept.
                if (await context.Devices.AsNoTracking().FirstOrDefaultAsync(d => d.TokenHash == mine, cancel) is { } already)
                {
                    return new(EntryOutcome.LetIn, DeviceOf(already), token);
                }

                // Whoever tries a code holds the door: one comes after the other, and each wrong code is counted.
                await context.Doors.ExecuteUpdateAsync(s => s.SetProperty(d => d.WrongCodes, d => d.WrongCodes), cancel);
                if ((await StateAsync(context, cancel)).IsClosed)
                {
                    return new(EntryOutcome.Closed, null, null);
                }

                DateTime now = Now;
                DeviceCodeRow? found = await context.DeviceCodes.FirstOrDefaultAsync(c => c.Hash == hash && c.UsedAt == null && c.EndsAt > now, cancel);
                if (found is null)
                {
                    await context.Doors.ExecuteUpdateAsync(s => s.SetProperty(d => d.WrongCodes, d => d.WrongCodes + 1), cancel);
                    await transaction.CommitAsync(cancel);
                    return new(EntryOutcome.WrongCode, null, null);
                }

                found.UsedAt = now;
                LetIn letIn = Add(context, token, (name, person), (DeviceRole)found.Role, isProgram: false, now);
                await context.SaveChangesAsync(cancel);
                await transaction.CommitAsync(cancel);
                return letIn;
            },
            cancel);
    }

    /// <summary>Lets a program in.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="role">What it may do.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The program and its token.</returns>
    public async Task<LetIn> AddProgramAsync(string name, DeviceRole role, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        LetIn letIn = Add(context, NewToken(), (name, ""), role, isProgram: true, Now);
        await context.SaveChangesAsync(cancel);
        return letIn;
    }

    /// <summary>Sends a device away; its token counts for nothing from now on.</summary>
    /// <param name="id">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether there is such a device.</returns>
    public async Task<bool> RevokeAsync(Guid id, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        DateTime now = Now;
        return await context.Devices.Where(d => d.Id == id).ExecuteUpdateAsync(s => s.SetProperty(d => d.RevokedAt, d => d.RevokedAt ?? now), cancel) > 0;
    }

    /// <summary>How the door stands.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Its state.</returns>
    public async Task<DoorState> DoorAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await StateAsync(context, cancel);
    }

    /// <summary>Opens the door again, and forgets the wrong codes.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When it is open.</returns>
    public async Task OpenDoorAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        await context.Doors.ExecuteUpdateAsync(s => s.SetProperty(d => d.WrongCodes, 0), cancel);
    }

    private DateTime Now => _time.GetUtcNow().UtcDateTime;

    private static string NewToken() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(TokenBytes));

    private static LetIn Add(BenchContext context, string token, (string Name, string Person) named, DeviceRole role, bool isProgram, DateTime now)
    {
        DeviceRow row = new()
        {
            Id = Guid.NewGuid(),
            Name = named.Name.Trim(),
            Person = named.Person.Trim(),
            Role = (int)role,
            IsProgram = isProgram,
            TokenHash = HashOf(token),
            LetInAt = now,
            UsedAt = now,
        };
        context.Devices.Add(row);
        return new(EntryOutcome.LetIn, DeviceOf(row), token);
    }

    private static async Task<DoorState> StateAsync(BenchContext context, CancellationToken cancel)
    {
        int wrong = await context.Doors.AsNoTracking().Select(d => d.WrongCodes).SingleAsync(cancel);
        return new(wrong, wrong >= DoorState.MostWrong);
    }

    private static Device DeviceOf(DeviceRow row) => new(row.Id, row.Name, row.Person, (DeviceRole)row.Role, row.IsProgram, row.LetInAt, row.UsedAt, row.RevokedAt);

    private static string HashOf(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}

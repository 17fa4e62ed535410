using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace Shimwright.Storage.Database;

/// <summary>The tables of a bench that several devices share: who is let in, and the keys of forms. They belong to the place, not to the work: no archive has them.</summary>
internal static class DeviceModel
{
    private const int HexOfHash = 64;

    public static void Add(ModelBuilder model)
    {
        model.Entity<DeviceRow>(device =>
        {
            device.ToTable("devices");
            device.Property(d => d.Id).ValueGeneratedNever();
            device.Property(d => d.Name).HasMaxLength(BenchContext.LongestName);
            device.Property(d => d.Person).HasMaxLength(BenchContext.LongestName);
            device.Property(d => d.TokenHash).HasMaxLength(HexOfHash);
            device.HasIndex(d => d.TokenHash).IsUnique();
        });
        model.Entity<DeviceCodeRow>(code =>
        {
            code.ToTable("device_codes");
            code.HasKey(c => c.Hash);
            code.Property(c => c.Hash).HasMaxLength(HexOfHash);
        });
        model.Entity<DoorRow>(door =>
        {
            door.ToTable("door");
            door.Property(d => d.Id).ValueGeneratedNever();
            door.HasData(new DoorRow());
        });
        model.Entity<DataProtectionKey>(key => key.ToTable("form_keys"));
    }
}

using System.Globalization;
using System.Security.Claims;
using Shimwright.Bench.Devices;

namespace Shimwright.Web.Visitors;

/// <summary>Who sends a request, as the server's own services carry it about.</summary>
internal static class Visitor
{
    public const string Scheme = "device";

    private const string Signature = "signature";

    /// <summary>A device that was let in.</summary>
    public static ClaimsPrincipal Of(Device device) => new(new ClaimsIdentity(
        [
            new(ClaimTypes.NameIdentifier, device.Id.ToString("N", CultureInfo.InvariantCulture)),
            new(ClaimTypes.Name, device.Person.Length > 0 ? device.Person : device.Name),
            new(ClaimTypes.Role, device.Role.ToString()),
            new(Signature, DeviceSignature.Of(device)),
        ],
        Scheme));

    /// <summary>Whoever is at the machine.</summary>
    public static ClaimsPrincipal Machine() => new(new ClaimsIdentity([new(ClaimTypes.Role, nameof(DeviceRole.Owner))], Scheme));

    /// <summary>What the visitor may do; null where it is not let in.</summary>
    public static DeviceRole? RoleOf(ClaimsPrincipal visitor) => Enum.TryParse(visitor.FindFirstValue(ClaimTypes.Role), out DeviceRole role) ? role : null;

    /// <summary>What is written beside what the visitor saves; null where it has no name of its own.</summary>
    public static string? SignatureOf(ClaimsPrincipal visitor) => visitor.FindFirstValue(Signature);

    /// <summary>The device; null where it is the machine itself, or nobody.</summary>
    public static Guid? DeviceOf(ClaimsPrincipal visitor) => Guid.TryParseExact(visitor.FindFirstValue(ClaimTypes.NameIdentifier), "N", out Guid id) ? id : null;

    /// <summary>Who it is, for people.</summary>
    public static string? NameOf(ClaimsPrincipal visitor) => visitor.FindFirstValue(ClaimTypes.Name);
}

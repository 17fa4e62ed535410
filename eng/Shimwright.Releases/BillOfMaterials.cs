using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Shimwright.Releases;

/// <summary>
/// The software bill of materials, as CycloneDX 1.6 in JSON (ECMA-424): every package in a part of the release, the runtime too, with the
/// checksum of the package as it was fetched. The same packages give the same file: its number follows from its content, its time is the commit's.
/// </summary>
internal static class BillOfMaterials
{
    private static readonly JsonSerializerOptions Written = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The bill of these packages.</summary>
    /// <param name="version">The version of the release.</param>
    /// <param name="moment">The time of the commit.</param>
    /// <param name="packages">The packages.</param>
    /// <param name="inBase">What the base of the container image has, where it was made here.</param>
    public static string Of(string version, DateTimeOffset moment, IReadOnlyList<Shipped> packages, IReadOnlyList<BasePackage> inBase)
    {
        string self = $"pkg:generic/shimwright@{version}";
        var bill = new JsonObject
        {
            ["$schema"] = "http://cyclonedx.org/schema/bom-1.6.schema.json",
            ["bomFormat"] = "CycloneDX",
            ["specVersion"] = "1.6",
            ["version"] = 1,
            ["metadata"] = new JsonObject
            {
                ["timestamp"] = moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
                ["component"] = new JsonObject
                {
                    ["type"] = "application",
                    ["bom-ref"] = self,
                    ["name"] = "Shimwright",
                    ["version"] = version,
                    ["licenses"] = Licences("MIT"),
                    ["purl"] = self,
                },
            },
            ["components"] = new JsonArray([.. packages.Select(Component), .. inBase.Select(Component)]),
            ["dependencies"] = new JsonArray([.. Dependencies(self, packages, inBase)]),
        };
        bill.Insert(3, "serialNumber", Number(bill.ToJsonString()));
        return bill.ToJsonString(Written) + "\n";
    }

    private static JsonNode Component(Shipped package)
    {
        Licence licence = Licence.Of(package);
        var component = new JsonObject
        {
            ["type"] = package.Name.Contains(".App.Runtime.", StringComparison.Ordinal) ? "framework" : "library",
            ["bom-ref"] = package.Address,
            ["name"] = package.Name,
            ["version"] = package.Version,
            ["hashes"] = new JsonArray(new JsonObject { ["alg"] = "SHA-512", ["content"] = package.Sum() }),
            ["licenses"] = licence.Expression is { } expression
                ? Licences(expression)
                : new JsonArray(new JsonObject { ["license"] = new JsonObject { ["name"] = licence.Text } }),
            ["copyright"] = licence.Copyright,
            ["purl"] = package.Address,
            ["properties"] = new JsonArray([.. package.Parts.Select(part => new JsonObject { ["name"] = "shimwright:part", ["value"] = part })]),
        };
        if (licence.Project is { } project)
        {
            component.Insert(8, "externalReferences", new JsonArray(new JsonObject { ["type"] = "website", ["url"] = project }));
        }

        return component;
    }

    private static JsonNode Component(BasePackage package)
    {
        var component = new JsonObject
        {
            ["type"] = package.IsPackage ? "library" : "framework",
            ["bom-ref"] = package.Address,
            ["name"] = package.Name,
            ["version"] = package.Version,
            ["purl"] = package.Address,
            ["properties"] = new JsonArray(new JsonObject { ["name"] = "shimwright:part", ["value"] = Shipped.Image }),
        };
        if (package.IsPackage)
        {
            component.Insert(4, "hashes", new JsonArray(new JsonObject { ["alg"] = "SHA-256", ["content"] = package.Sum }));
        }

        return component;
    }

    private static JsonArray Licences(string expression) => expression.Contains(' ', StringComparison.Ordinal)
        ? new JsonArray(new JsonObject { ["expression"] = expression })
        : new JsonArray(new JsonObject { ["license"] = new JsonObject { ["id"] = expression } });

    private static IEnumerable<JsonNode> Dependencies(string self, IReadOnlyList<Shipped> packages, IReadOnlyList<BasePackage> inBase)
    {
        ILookup<string, string> addresses = packages.ToLookup(p => p.Name, p => p.Address, StringComparer.OrdinalIgnoreCase);
        string[] Needs(Shipped package) => [.. package.Needs.SelectMany(n => addresses[n]).Order(StringComparer.Ordinal)];
        HashSet<string> needed = [.. packages.SelectMany(Needs)];
        yield return Line(self, [.. packages.Select(p => p.Address).Where(a => !needed.Contains(a)), .. inBase.Select(p => p.Address)]);
        foreach (Shipped package in packages)
        {
            yield return Line(package.Address, Needs(package));
        }

        foreach (BasePackage package in inBase)
        {
            yield return Line(package.Address, []);
        }
    }

    private static JsonObject Line(string from, IEnumerable<string> to) => new() { ["ref"] = from, ["dependsOn"] = new JsonArray([.. to.Select(t => JsonValue.Create(t))]) };

    /// <summary>A UUID of the kind that its maker defines (RFC 9562, version 8), from the content.</summary>
    private static string Number(string content)
    {
        byte[] sum = SHA256.HashData(Encoding.UTF8.GetBytes(content))[..16];
        sum[6] = (byte)((sum[6] & 0x0F) | 0x80);
        sum[8] = (byte)((sum[8] & 0x3F) | 0x80);
        return "urn:uuid:" + new Guid(sum, bigEndian: true).ToString("D");
    }
}

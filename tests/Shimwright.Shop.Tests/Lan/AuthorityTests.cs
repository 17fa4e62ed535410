using System.Net;
using System.Security.Cryptography.X509Certificates;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests.Lan;

/// <summary>The chain is judged by the system's own library for certificates, not by ours.</summary>
public sealed class AuthorityTests : IDisposable
{
    private static readonly DateTimeOffset Now = TimeProvider.System.GetUtcNow();

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-authority-").FullName;

    [Theory]
    [InlineData("localhost")]
    [InlineData("lift.local")]
    [InlineData("192.168.1.20")]
    [InlineData("10.0.0.7")]
    [InlineData("172.31.255.1")]
    [InlineData("fd00::2")]
    public void Vouch_ForTheWorkshopsNetwork_IsTrusted(string name) => Assert.Empty(Wrong(name));

    /// <summary>A stolen key is worth nothing on the internet (RFC 5280, 4.2.1.10).</summary>
    [Theory]
    [InlineData("bank.example")]
    [InlineData("local.example")]
    [InlineData("8.8.8.8")]
    [InlineData("172.32.0.1")]
    [InlineData("2001:db8::1")]
    public void Vouch_ForAnythingElse_IsNotTrusted(string name) => Assert.NotEmpty(Wrong(name));

    [Fact]
    public void In_TheSameFolder_IsTheSameAndForItsOwnerOnly()
    {
        using var first = Authority.In(_folder, [], Now);
        using var second = Authority.In(_folder, [], Now.AddDays(100));
        Assert.Equal(first.Fingerprint, second.Fingerprint);
        Assert.Equal(16 * 5 - 1, first.Fingerprint.Length);
        if (!OperatingSystem.IsWindows())
        {
            foreach (string file in Directory.GetFiles(_folder))
            {
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
            }
        }
    }

    [Fact]
    public void In_FilesThatCannotBeRead_SaysWhichAndWhatToDo()
    {
        File.WriteAllText(Path.Combine(_folder, "authority.crt"), "no certificate");
        File.WriteAllText(Path.Combine(_folder, "authority.key"), "no key");
        LanException wrong = Assert.Throws<LanException>(() => Authority.In(_folder, [], Now));
        Assert.Contains("authority.crt", wrong.Message, StringComparison.Ordinal);
        Assert.Contains("remove both", wrong.Message, StringComparison.Ordinal);
    }

    /// <summary>The CA/Browser Forum's limit, 398 days, which phones keep.</summary>
    [Fact]
    public void By_ACertificate_LastsNoLongerThanPhonesTake()
    {
        var authority = Authority.In(_folder, [], Now);
        using var server = ServerCertificate.By(authority, _folder, ["localhost"], Now);
        Assert.InRange((server.Current.NotAfter - server.Current.NotBefore).TotalDays, 300, 398.01);
    }

    [Fact]
    public void Follow_AnotherAddressOrTheEndNear_IsMadeAnewAndElseKept()
    {
        var authority = Authority.In(_folder, [], Now);
        using var server = ServerCertificate.By(authority, _folder, ["localhost", "192.168.1.20"], Now);
        string first = server.Current.Thumbprint;
        Assert.False(server.Follow(["localhost", "192.168.1.20"], Now.AddDays(360)));
        Assert.False(server.Follow(["localhost"], Now));
        Assert.True(server.Follow(["localhost", "192.168.1.21"], Now));
        string second = server.Current.Thumbprint;
        Assert.NotEqual(first, second);
        using var again = ServerCertificate.By(Authority.In(_folder, [], Now), _folder, ["192.168.1.21"], Now);
        Assert.Equal(second, again.Current.Thumbprint);
        Assert.True(server.Follow(["localhost", "192.168.1.21"], Now.AddDays(370)));
    }

    /// <summary>What it may vouch for is settled when it is made: a name that comes later would spoil the certificate for all.</summary>
    [Theory]
    [InlineData("bench.example.org", true)]
    [InlineData("lift.local", true)]
    [InlineData("localhost", true)]
    [InlineData("other.example.org", false)]
    [InlineData("org", false)]
    public void MayVouchFor_ANameThatIsGivenLater_IsSaid(string name, bool may)
    {
        using (Authority.In(_folder, ["bench.example.org"], Now))
        {
        }

        using var again = Authority.In(_folder, [name], Now);
        Assert.Equal(may, again.MayVouchFor(name));
    }

    /// <summary>Whoever has a certificate of their own brings it as they got it.</summary>
    [Theory]
    [InlineData("own.pem")]
    [InlineData("own.pfx")]
    public void Own_ACertificateWithItsKey_IsShownAndNeverMadeAnew(string name)
    {
        string file = Path.Combine(_folder, name);
        using (var authority = Authority.In(_folder, [], Now))
        using (X509Certificate2 made = authority.Vouch(["bench.local"], Now))
        {
            if (name.EndsWith(".pem", StringComparison.Ordinal))
            {
                using System.Security.Cryptography.ECDsa key = made.GetECDsaPrivateKey()!;
                File.WriteAllText(file, made.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem());
            }
            else
            {
                File.WriteAllBytes(file, made.Export(X509ContentType.Pkcs12));
            }
        }

        using var own = ServerCertificate.Own(file);
        Assert.True(own.Current.HasPrivateKey);
        Assert.False(own.Follow(["elsewhere.local"], Now.AddDays(390)));
    }

    [Theory]
    [InlineData("no certificate at all")]
    [InlineData("")]
    public void Own_AFileThatIsNone_SaysWhichAndWhatToDo(string text)
    {
        string file = Path.Combine(_folder, "own.pem");
        File.WriteAllText(file, text);
        LanException wrong = Assert.Throws<LanException>(() => ServerCertificate.Own(file));
        Assert.Contains(file, wrong.Message, StringComparison.Ordinal);
        Assert.Contains("with the certificate and its key", wrong.Message, StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string[] Wrong(string name)
    {
        using var authority = Authority.In(_folder, [], Now);
        using X509Certificate2 server = authority.Vouch([name], Now);
        using X509Certificate2 root = X509CertificateLoader.LoadCertificate(authority.Certificate());
        using X509Chain chain = new();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(root);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        bool isTrusted = chain.Build(server) && (IPAddress.TryParse(name, out _) || server.MatchesHostname(name));
        return isTrusted ? [] : [.. chain.ChainStatus.Select(s => s.Status.ToString()).DefaultIfEmpty("no match")];
    }
}

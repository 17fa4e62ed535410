using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Builder;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests.Lan;

public sealed class IntroductionTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-introduction-").FullName;

    [Fact]
    public async Task Get_OverPlainHttp_GivesAwayTheCertificateAndNothingElse()
    {
        using var authority = Authority.In(_folder, [], TimeProvider.System.GetUtcNow());
        await using WebApplication app = Introduction.Build(0, authority, () => "https://192.168.1.20:7340");
        await app.StartAsync(TestContext.Current.CancellationToken);
        using HttpClient client = new(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = new Uri($"http://127.0.0.1:{new Uri(app.Urls.First()).Port}") };
        string page = await client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains(authority.Fingerprint, page, StringComparison.Ordinal);
        Assert.Contains("https://192.168.1.20:7340", page, StringComparison.Ordinal);
        byte[] sent = await client.GetByteArrayAsync(new Uri("/shimwright-authority.crt", UriKind.Relative), TestContext.Current.CancellationToken);
        using X509Certificate2 certificate = X509CertificateLoader.LoadCertificate(sent);
        Assert.False(certificate.HasPrivateKey);
        Assert.Equal(authority.Fingerprint.Replace(" ", "", StringComparison.Ordinal), Convert.ToHexString(SHA256.HashData(certificate.RawData)));
        foreach (string path in new[] { "/engines", "/api/v1/engines", "/settings/copies/bench.zip", "/authority.key", "/app.css" })
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal((HttpStatusCode.Redirect, "/"), (answer.StatusCode, answer.Headers.Location?.ToString()));
        }
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Storage;
using Shimwright.Web.Hosting;

namespace Shimwright.Web.Tests.Hosting;

/// <summary>Servers that a test may break: each has a folder of its own.</summary>
public sealed class OwnServerTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-own-").FullName;

    private string File => Path.Combine(_folder, "bench.db");

    /// <summary>What a page was given before a restart has to be taken after it.</summary>
    [Fact]
    public async Task Keys_OfForms_LieWhereTheyWereToBeKept()
    {
        string keys = Path.Combine(_folder, "keys");
        Directory.CreateDirectory(keys);
        await using WebApplication app = await StartAsync(keys);
        app.Services.GetRequiredService<IDataProtectionProvider>().CreateProtector("a form").Protect([1, 2, 3]);
        Assert.NotEmpty(Directory.GetFiles(keys, "key-*.xml"));
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Healthz_DatabaseThatIsGone_SaysSo()
    {
        await using WebApplication app = await StartAsync(null);
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        Assert.Equal(HttpStatusCode.OK, await HealthAsync(client));
        SqliteConnection.ClearAllPools();
        System.IO.File.Move(File, File + ".away");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, await HealthAsync(client));
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>The program says where it listens, and no variable of the machine may add to that: one was enough to open the bench to the network.</summary>
    [Theory]
    [InlineData("Kestrel__Endpoints__Http__Url", "http://127.0.0.1:0")]
    [InlineData("ASPNETCORE_Kestrel__Endpoints__Http__Url", "http://127.0.0.1:0")]
    [InlineData("ASPNETCORE_ENVIRONMENT", "Development")]
    [InlineData("DOTNET_ENVIRONMENT", "Development")]
    public async Task Start_WithServerSettingsInTheEnvironment_TakesNone(string variable, string value)
    {
        Environment.SetEnvironmentVariable(variable, value);
        try
        {
            await using WebApplication app = await StartAsync(null);
            Assert.Single(app.Urls);
            Assert.Equal("Production", app.Environment.EnvironmentName);
            await app.StopAsync(TestContext.Current.CancellationToken);
        }
        finally
        {
            Environment.SetEnvironmentVariable(variable, null);
        }
    }

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    private static async Task<HttpStatusCode> HealthAsync(HttpClient client)
    {
        using HttpResponseMessage answer = await client.GetAsync(new Uri("/healthz", UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    private async Task<WebApplication> StartAsync(string? keys, string file = "bench.db")
    {
        var database = BenchDatabase.At(Path.Combine(_folder, file), TimeProvider.System);
        await database.PrepareAsync(TestContext.Current.CancellationToken);
        WebApplication app = BenchServer.Build(new(database, 0, keys, TimeProvider.System));
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }
}

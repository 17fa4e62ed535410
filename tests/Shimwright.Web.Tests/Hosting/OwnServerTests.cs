using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Storage;
using Shimwright.Web.Hosting;
using Shimwright.Web.Tests.Pages;

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
        for (int left = 50; left > 0 && await HealthAsync(client) == HttpStatusCode.OK; left--)
        {
            // A connection that worked in the background just then still has the file.
            SqliteConnection.ClearAllPools();
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

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

    /// <summary>Cookies know no ports: what the second bench set took the place of the first one's, and the first one's forms were refused.</summary>
    [Fact]
    public async Task Forms_OfTwoBenchesInOneBrowser_AreBothTaken()
    {
        await using WebApplication mine = await StartAsync(Keys("mine"), "mine.db");
        await using WebApplication other = await StartAsync(Keys("other"), "other.db");
        using HttpClientHandler browser = new() { AllowAutoRedirect = false, UseCookies = true };
        using HttpClient toMine = new(browser, disposeHandler: false) { BaseAddress = new Uri(mine.Urls.First()) };
        using HttpClient toOther = new(browser, disposeHandler: false) { BaseAddress = new Uri(other.Urls.First()) };
        FormPost form = await FormPost.OnAsync(toMine, "/settings", "look");
        FormPost otherForm = await FormPost.OnAsync(toOther, "/settings", "look");
        Assert.Equal(HttpStatusCode.OK, (await form.SubmitAsync()).Status);
        Assert.Equal(HttpStatusCode.OK, (await otherForm.SubmitAsync()).Status);
        Assert.Equal(4, browser.CookieContainer.GetAllCookies().Count);
        await mine.StopAsync(TestContext.Current.CancellationToken);
        await other.StopAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>The page about it asked the database for its colours, and was blank; the API answered with a page.</summary>
    [Theory]
    [InlineData("/engines", "text/html")]
    [InlineData("/settings", "text/html")]
    [InlineData("/api/v1/engines", "application/problem+json")]
    public async Task Get_DatabaseThatIsAway_IsToldWhatToDo(string path, string kind)
    {
        await using WebApplication app = await StartAsync(null);
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        using HttpResponseMessage answer = await GetSpoiltAsync(client, path);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Equal(kind, answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("the file is no database", text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("another file with --db", text, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.NotNull(answer.Headers.RetryAfter);
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>A page that was only asked for comes back by itself; of what was sent it is said that it may be lost.</summary>
    [Fact]
    public async Task Post_FileWasTakenAway_IsToldThatItMayNotBeKeptAndComesBack()
    {
        var database = BenchDatabase.At(File, TimeProvider.System);
        await database.PrepareAsync(TestContext.Current.CancellationToken);
        await using IAsyncDisposable held = await database.HoldAsync(TestContext.Current.CancellationToken);
        await using WebApplication app = BenchServer.Build(new(database, 0, null, TimeProvider.System));
        await app.StartAsync(TestContext.Current.CancellationToken);
        using var client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = true }) { BaseAddress = new Uri(app.Urls.First()) };
        FormPost form = (await FormPost.OnAsync(client, "/settings", "look")).With("Look.Currency", "EUR");
        System.IO.File.Move(File, File + ".away");
        using (HttpResponseMessage refused = await form.SendAsync())
        {
            Assert.Equal(HttpStatusCode.ServiceUnavailable, refused.StatusCode);
            Assert.Contains("What you just sent may not be kept.", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
            Assert.False(refused.Headers.Contains("Refresh"));
            Assert.NotNull(refused.Headers.RetryAfter);
        }

        SqliteConnection.ClearAllPools();
        using (HttpResponseMessage asked = await client.GetAsync(new Uri("/settings", UriKind.Relative), TestContext.Current.CancellationToken))
        {
            Assert.Equal(HttpStatusCode.ServiceUnavailable, asked.StatusCode);
            Assert.Contains("comes back by itself", await asked.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
            Assert.Equal("10", Assert.Single(asked.Headers.GetValues("Refresh")));
        }

        System.IO.File.Move(File + ".away", File);
        Assert.Equal(HttpStatusCode.OK, (await (await FormPost.OnAsync(client, "/settings", "look")).With("Look.Currency", "EUR").SubmitAsync()).Status);
        Assert.Equal(HttpStatusCode.OK, await HealthAsync(client));
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>
    /// Spoils the file and asks for a page. A connection that worked in the background just then still knows the file as it was: it is let
    /// go of, and the page asked for again.
    /// </summary>
    private async Task<HttpResponseMessage> GetSpoiltAsync(HttpClient client, string path)
    {
        for (int left = 50; ; left--)
        {
            SqliteConnection.ClearAllPools();
            // Another file under the same name: what that connection still holds is none of it.
            await System.IO.File.WriteAllTextAsync(File + ".spoilt", new string('x', 5000), TestContext.Current.CancellationToken);
            System.IO.File.Move(File + ".spoilt", File, overwrite: true);
            System.IO.File.Delete(File + "-wal");
            System.IO.File.Delete(File + "-shm");
            HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            if (answer.StatusCode == HttpStatusCode.ServiceUnavailable || left == 0)
            {
                return answer;
            }

            answer.Dispose();
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>A fault cleared every header that had been set before it.</summary>
    [Theory]
    [InlineData("/engines", "text/html")]
    [InlineData("/api/v1/engines", "application/problem+json")]
    public async Task Get_AFaultOfTheProgram_IsAnsweredInKindWithThePolicy(string path, string kind)
    {
        await using WebApplication app = await StartAsync(null);
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        await using (var direct = new SqliteConnection($"Data Source={File}"))
        {
            await direct.OpenAsync(TestContext.Current.CancellationToken);
            await using SqliteCommand drop = direct.CreateCommand();
            drop.CommandText = "PRAGMA foreign_keys=OFF; ALTER TABLE Engines RENAME COLUMN Name TO Naam;";
            await drop.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
        Assert.Equal(kind, answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("fault of the program", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        await app.StopAsync(TestContext.Current.CancellationToken);
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

    private string Keys(string name) => Directory.CreateDirectory(Path.Combine(_folder, name)).FullName;

    private async Task<WebApplication> StartAsync(string? keys, string file = "bench.db")
    {
        var database = BenchDatabase.At(Path.Combine(_folder, file), TimeProvider.System);
        await database.PrepareAsync(TestContext.Current.CancellationToken);
        WebApplication app = BenchServer.Build(new(database, 0, keys, TimeProvider.System));
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }
}

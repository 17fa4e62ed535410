using System.Collections.Concurrent;
using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Shimwright.Bench.Devices;
using Shimwright.Testing.Benches;
using Shimwright.Web.Door;

namespace Shimwright.Shop.Tests.Door;

/// <summary>What the log says of who was let in, and what it never says.</summary>
public class LogTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Log_OfADayAtTheDoor_HoldsWhoAndFromWhereButNoSecret()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using Heard heard = new();
        shop.App.Services.GetRequiredService<ILoggerFactory>().AddProvider(heard);
        OneTimeCode code = await test.Bench.Devices.MakeCodeAsync(DeviceRole.Reader, Cancel);
        using HttpClient phone = shop.NewClient();
        (await EnterTests.EnterAsync(phone, "/enter", ("Enter.Code", "AAAAAAAA"), ("Enter.Person", "Ana"), ("Enter.Name", "phone"))).Dispose();
        (await EnterTests.EnterAsync(phone, "/enter", ("Enter.Code", code.Text), ("Enter.Person", "Ana"), ("Enter.Name", "phone"))).Dispose();
        using HttpResponseMessage refused = await phone.PostAsync(new Uri("/settings", UriKind.Relative), new FormUrlEncodedContent([]), Cancel);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        string token = Convert.ToHexStringLower(Guid.NewGuid().ToByteArray()) + Convert.ToHexStringLower(Guid.NewGuid().ToByteArray());
        using HttpClient program = shop.NewClient();
        program.DefaultRequestHeaders.Authorization = new("Bearer", token);
        (await program.GetAsync(new Uri("/api/v1/engines", UriKind.Relative), Cancel)).Dispose();
        string log = string.Join('\n', heard.Lines);
        Assert.Contains("A wrong code from", log, StringComparison.Ordinal);
        Assert.Contains("Let in: Ana, phone, Reader, from", log, StringComparison.Ordinal);
        Assert.Contains("Ana may not POST /settings", log, StringComparison.Ordinal);
        Assert.Contains("A token that is not known", log, StringComparison.Ordinal);
        Assert.DoesNotContain("AAAAAAAA", log, StringComparison.Ordinal);
        Assert.DoesNotContain(code.Text, log, StringComparison.Ordinal);
        Assert.DoesNotContain(token, log, StringComparison.Ordinal);
    }

    [Fact]
    public void Log_ANameWithALineInIt_StaysOneLine()
    {
        using Heard heard = new();
        using ILoggerFactory logs = LoggerFactory.Create(l => l.AddProvider(heard));
        new SecurityLog(logs).LetIn("Ana\nwarn: all is well", "Owner", IPAddress.Loopback);
        Assert.Equal("Let in: Ana warn: all is well, Owner, from 127.0.0.1.", Assert.Single(heard.Lines));
    }

    private sealed class Heard : ILoggerProvider, ILogger
    {
        public ConcurrentQueue<string> Lines { get; } = [];

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Lines.Enqueue(formatter(state, exception));

        public void Dispose()
        {
        }
    }
}

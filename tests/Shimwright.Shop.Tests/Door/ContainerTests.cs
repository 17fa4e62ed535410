using System.Net;
using Microsoft.AspNetCore.Builder;
using Shimwright.Testing.Benches;
using Shimwright.Web.Hosting;
using Shimwright.Web.Running;

namespace Shimwright.Shop.Tests.Door;

public class ContainerTests
{
    /// <summary>Through a published port everybody looks like the machine itself.</summary>
    [Fact]
    public async Task Get_InAContainer_IsForThoseLetIn()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using WebApplication app = BenchServer.Build(new(test.Bench, 0, null, TimeProvider.System, Running: new ServerRunning(InContainer: true)));
        await app.StartAsync(TestContext.Current.CancellationToken);
        using HttpClient client = new() { BaseAddress = new Uri($"http://127.0.0.1:{new Uri(app.Urls.First()).Port}") };
        foreach ((string path, HttpStatusCode expected) in new[]
        {
            ("/engines", HttpStatusCode.Unauthorized), ("/api/v1/engines", HttpStatusCode.Unauthorized), ("/settings/devices", HttpStatusCode.Unauthorized),
            ("/enter", HttpStatusCode.OK), ("/readyz", HttpStatusCode.OK),
        })
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.True(expected == answer.StatusCode, $"{path}: {answer.StatusCode}");
        }
    }
}

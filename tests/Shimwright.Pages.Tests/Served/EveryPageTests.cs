using System.Reflection;
using Microsoft.AspNetCore.Components;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Tests.Visits;
using Shimwright.Testing.Workshop;

namespace Shimwright.Pages.Tests.Served;

/// <summary>Every page, in each state in which it looks different, is the same with and without a server.</summary>
public sealed class EveryPageTests(TwoBenches benches) : IClassFixture<TwoBenches>
{
    public static TheoryData<string> Names => [.. PageList.All.Where(p => !p.IsOfTheStore).Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Page_OfTheBench_IsWhatTheServerSends(string name)
    {
        Ending page = await benches.AskAsync(PageList.All.Single(p => p.Name == name).Address);
        Assert.Equal(200, page.Status);
        Assert.Contains("<h1", page.Html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/nowhere", 404)]
    [InlineData("/jobs/none/measure", 404)]
    [InlineData("/jobs/01234567-89ab-cdef-0123-456789abcdef/measure", 404)]
    [InlineData("/engines/01234567-89ab-cdef-0123-456789abcdef/wear", 404)]
    [InlineData("/drawer/shim?diameter=1&thickness=2&by=mark", 404)]
    [InlineData("/feel/01234567-89ab-cdef-0123-456789abcdef", 404)]
    [InlineData("/drawer/orders?days=none&level=2", 422)]
    [InlineData("/drawer/kits?days=0.5&worth=-1", 422)]
    [InlineData("/timing?teeth=x&offset=1", 422)]
    [InlineData("/error?code=413", 200)]
    public async Task Address_WithNothingOrNonsense_EndsAsOnTheServer(string path, int status) =>
        Assert.Equal(status, (await benches.AskAsync(_ => path)).Status);

    [Fact]
    public void Pages_OfTheLibrary_AreAllInTheList()
    {
        string[] routes = [.. typeof(Document).Assembly.GetTypes().SelectMany(t => t.GetCustomAttributes<RouteAttribute>()).Select(r => r.Template).Order(StringComparer.Ordinal)];
        Assert.Equal(routes, PageList.All.Select(p => p.Route).Distinct().Order(StringComparer.Ordinal));
    }
}

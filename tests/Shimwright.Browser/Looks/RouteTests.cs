using System.Reflection;
using Microsoft.AspNetCore.Components;
using Shimwright.Pages.Shell;
using Shimwright.Testing.Workshop;

namespace Shimwright.Browser.Looks;

public class RouteTests
{
    [Fact]
    public void Routes_OfTheProgram_AreAllLookedAt()
    {
        string[] routes = [.. typeof(Document).Assembly.GetTypes().SelectMany(t => t.GetCustomAttributes<RouteAttribute>()).Select(r => r.Template).Order(StringComparer.Ordinal)];
        string[] seen = [.. PageList.All.Select(p => p.Route).Distinct().Order(StringComparer.Ordinal)];
        Assert.Equal(routes, seen);
    }

    [Fact]
    public void Pages_OfTheList_HaveNamesOfTheirOwn() =>
        Assert.Equal(PageList.All.Count, PageList.All.Select(p => p.Name).Distinct().Count());
}

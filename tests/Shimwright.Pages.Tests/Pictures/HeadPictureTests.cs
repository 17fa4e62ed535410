using AngleSharp.Dom;
using Bunit;
using Shimwright.Domain.Engines;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Tests.Pictures;

public class HeadPictureTests
{
    private static readonly ClearanceBand Band = new(0.10, 0.17);

    [Fact]
    public void Render_SixteenValves_IsALinkEachWithNameShapeAndWord()
    {
        using var context = new BunitContext();
        HeadValve[] valves = [.. Four(c => "cover")];
        IRenderedComponent<HeadPicture> head = context.Render<HeadPicture>(p => p.Add(h => h.Valves, valves));
        IReadOnlyList<IElement> links = head.FindAll("nav a.head-valve");
        Assert.Equal(16, links.Count);
        Assert.All(links, link =>
        {
            Assert.NotNull(link.QuerySelector("svg[aria-hidden=true]"));
            Assert.Matches(@"^[IE][1-8]\s+(intake|exhaust):\s+(in band|out of band|not settled|not read)$", Words(link));
        });
        Assert.Equal(valves.Select(v => v.Valve.Id).Order(), links.Select(l => l.QuerySelector("strong")!.TextContent).Order());
    }

    /// <summary>The word stands at the end that the card names, and whoever cannot see it hears it; where the card is silent there is none.</summary>
    [Theory]
    [InlineData("first", "\u2190 front", ", front at cylinder 1")]
    [InlineData("last", "front \u2192", ", front at the last cylinder")]
    [InlineData(null, null, "")]
    public void Render_FrontOfTheHead_IsNamedAtItsEnd(string? front, string? word, string heard)
    {
        var json = (System.Text.Json.Nodes.JsonObject)System.Text.Json.Nodes.JsonNode.Parse(Samples.DemoFile.Read("02-worn-four.json"))!["engine"]!.DeepClone();
        if (front is not null)
        {
            json["front"] = front;
        }

        using var context = new BunitContext();
        IRenderedComponent<HeadPicture> head = context.Render<HeadPicture>(p => p
            .Add(h => h.Valves, [.. Four(c => "cover")]).Add(h => h.Front, Shimwright.Jobs.Cards.EngineCard.Read(json).Card!.Front).Add(h => h.Label, "Head"));
        Assert.Equal(word, head.FindAll(".head-end").SingleOrDefault()?.TextContent);
        Assert.Equal("Head" + heard, head.Find("nav").GetAttribute("aria-label"));
    }

    [Fact]
    public void Render_TheSelectedValve_IsTheOnlyCurrentOne()
    {
        using var context = new BunitContext();
        HeadValve[] valves = [.. Four(c => "cover").Select(v => v with { IsSelected = v.Valve.Id == "E3" })];
        IRenderedComponent<HeadPicture> head = context.Render<HeadPicture>(p => p.Add(h => h.Valves, valves));
        Assert.Equal("E3", head.FindAll("a[aria-current]").Single().QuerySelector("strong")!.TextContent);
    }

    [Fact]
    public void Render_IntakeAndExhaust_AreOnSidesOfTheirOwn()
    {
        using var context = new BunitContext();
        IRenderedComponent<HeadPicture> head = context.Render<HeadPicture>(p => p.Add(h => h.Valves, [.. Four(c => "cover")]));
        IElement second = head.FindAll(".head-cylinder")[1];
        Assert.Equal(["I3", "I4"], second.QuerySelectorAll("ul")[0].QuerySelectorAll("strong").Select(s => s.TextContent));
        Assert.Equal(["E3", "E4"], second.QuerySelectorAll("ul")[1].QuerySelectorAll("strong").Select(s => s.TextContent));
    }

    [Fact]
    public void RowsOf_TwoSetsOfAccess_AreTwoBanks()
    {
        IReadOnlyList<IReadOnlyList<HeadCylinder>> rows = HeadPlan.RowsOf([.. Four(c => c % 2 == 1 ? "left cover" : "right cover")]);
        Assert.Equal([[1, 3], [2, 4]], rows.Select(r => r.Select(c => c.Number).ToArray()));
    }

    /// <summary>Camshafts of the two sides reach every cylinder: one head, however many parts are lifted.</summary>
    [Fact]
    public void RowsOf_ACamshaftASide_IsOneRow()
    {
        HeadValve[] valves = [.. Four(c => "").Select(v => Put(v.Valve.Id, v.Valve.Cylinder, v.Valve.Side, v.Valve.Side == ValveSide.Intake ? "intake cam" : "exhaust cam"))];
        Assert.Single(HeadPlan.RowsOf(valves));
    }

    [Fact]
    public void RowsOf_ACoverACylinder_IsOneRow() => Assert.Single(HeadPlan.RowsOf([.. Four(c => $"cover {c}")]));

    [Fact]
    public void RowsOf_TwoCamshaftsOnEachBank_AreTwoBanks()
    {
        HeadValve[] valves = [.. Four(c => "").Select(v => Put(
            v.Valve.Id, v.Valve.Cylinder, v.Valve.Side, $"{(v.Valve.Cylinder <= 2 ? "front" : "rear")} {v.Valve.Side} cam"))];
        Assert.Equal([[1, 2], [3, 4]], HeadPlan.RowsOf(valves).Select(r => r.Select(c => c.Number).ToArray()));
    }

    [Fact]
    public void Render_WithoutLinks_IsAPictureOnly()
    {
        using var context = new BunitContext();
        IRenderedComponent<HeadPicture> head = context.Render<HeadPicture>(p => p.Add(h => h.Valves, [new(new Valve("I1", 1, ValveSide.Intake, "cover", Band), "in", null, Word: "left alone")]));
        Assert.Empty(head.FindAll("a"));
        Assert.Contains("left alone", head.Find(".head-valve").TextContent, StringComparison.Ordinal);
    }

    private static IEnumerable<HeadValve> Four(Func<int, string> access)
    {
        string[] statuses = ["in", "out", "unsettled", "none"];
        for (int v = 1; v <= 8; v++)
        {
            int cylinder = (v + 1) / 2;
            yield return Put($"I{v}", cylinder, ValveSide.Intake, access(cylinder), statuses[v % 4]);
            yield return Put($"E{v}", cylinder, ValveSide.Exhaust, access(cylinder), statuses[(v + 1) % 4]);
        }
    }

    private static HeadValve Put(string id, int cylinder, ValveSide side, string access, string status = "in") =>
        new(new Valve(id, cylinder, side, access.Length == 0 ? "cover" : access, Band), status, $"?valve={id}");

    private static string Words(IElement element) => string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}

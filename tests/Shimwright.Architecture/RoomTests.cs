using System.Reflection;
using Xunit;

namespace Shimwright.Architecture;

/// <summary>A concept has one room, and no two rooms need each other.</summary>
public class RoomTests
{
    public static TheoryData<string> Projects => [.. Product.Assemblies.Select(a => Product.ProjectOf(a.GetName()))];

    [Theory]
    [MemberData(nameof(Projects))]
    public void Rooms_OfAProject_NeverGoRoundInACircle(string project)
    {
        Assembly assembly = Assert.Single(Product.Assemblies, a => Product.ProjectOf(a.GetName()) == project);
        var rooms = Rooms.Of(assembly);
        Assert.True(rooms.Count > 1, $"{project} has no rooms to look at.");
        Assert.True(rooms.Circles() is { Count: 0 }, $"{project} has {rooms.Circles().Count} circles:\n{string.Join("\n\n", rooms.Circles())}");
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void References_OfAProject_PointAlongTheArrowsOnly(string project)
    {
        Assembly assembly = Assert.Single(Product.Assemblies, a => Product.ProjectOf(a.GetName()) == project);
        string[] seen = [.. assembly.GetReferencedAssemblies().Select(Product.ProjectOf).Where(n => n.StartsWith("Shimwright.", StringComparison.Ordinal))];
        Assert.All(seen, s => Assert.True(Product.MaySee[project].Contains(s), $"{project} must not see {s}."));
    }

    [Fact]
    public void Circles_OfTwoTestRooms_AreFound()
    {
        // The test of the test: this very assembly has two rooms that need each other.
        IReadOnlyList<string> circles = Rooms.Of(typeof(RoomTests).Assembly).Circles();
        string circle = Assert.Single(circles);
        Assert.Contains("Circle.Left -> Shimwright.Architecture.Circle.Right", circle, StringComparison.Ordinal);
        Assert.Contains("Circle.Right -> Shimwright.Architecture.Circle.Left", circle, StringComparison.Ordinal);
    }
}

using System.Text.Json;
using System.Text.RegularExpressions;

namespace Shimwright.Jobs.Tests.Samples;

/// <summary>What an answer in JSON is made of.</summary>
internal static partial class Shape
{
    /// <summary>The object has these members and no others, in any order, null or not.</summary>
    public static void AssertMembers(JsonElement element, params string[] names)
    {
        Assert.Equal(JsonValueKind.Object, element.ValueKind);
        Assert.Equal(names.Order(StringComparer.Ordinal), element.EnumerateObject().Select(p => p.Name).Order(StringComparer.Ordinal));
    }

    /// <summary>Every member name is camelCase, every number finite, and every text one line.</summary>
    public static void AssertTidy(JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (JsonProperty property in element.EnumerateObject())
                {
                    Assert.Matches(CamelCase(), property.Name);
                    AssertTidy(property.Value);
                }

                break;
            case JsonValueKind.Array:
                foreach (JsonElement item in element.EnumerateArray())
                {
                    AssertTidy(item);
                }

                break;
            case JsonValueKind.Number:
                Assert.True(double.IsFinite(element.GetDouble()));
                Assert.NotEqual("-0", element.GetRawText());
                break;
            case JsonValueKind.String:
                Assert.DoesNotContain('\n', element.GetString()!);
                break;
        }
    }

    public static void AssertChance(JsonElement element) => Assert.InRange(element.GetDouble(), 0, 1);

    /// <summary>An estimate inside a row, or a whole estimate row where a valve's name stands in it.</summary>
    public static void AssertEstimate(JsonElement estimate, params string[] more)
    {
        AssertMembers(estimate, ["mean", "sd", "low", "high", "inBand", "status", .. more]);
        Assert.True(estimate.GetProperty("sd").GetDouble() > 0);
        Assert.True(estimate.GetProperty("low").GetDouble() < estimate.GetProperty("mean").GetDouble());
        Assert.True(estimate.GetProperty("mean").GetDouble() < estimate.GetProperty("high").GetDouble());
        AssertChance(estimate.GetProperty("inBand"));
        Assert.Equal(
            estimate.GetProperty("inBand").GetDouble() switch { >= 0.90 => "in", <= 0.10 => "out", _ => "unsettled" },
            estimate.GetProperty("status").GetString());
    }

    [GeneratedRegex("^[a-z][a-zA-Z0-9]*$")]
    private static partial Regex CamelCase();
}

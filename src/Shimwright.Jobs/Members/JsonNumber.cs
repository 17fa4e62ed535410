using System.Text.Json;

namespace Shimwright.Jobs.Members;

/// <summary>A number in a file: bare, or as text with a unit where its rule measures something.</summary>
internal static class JsonNumber
{
    /// <summary>The value, or null with a problem noted.</summary>
    public static double? Read(string path, JsonElement element, NumberRule rule, List<JobProblem> problems)
    {
        double? number = element.ValueKind switch
        {
            JsonValueKind.Number => element.TryGetDouble(out double value) ? value : null,
            JsonValueKind.String when JsonText.TextOf(element) is { } text => MeasuredText.Read(text, rule.Measure),
            _ => null,
        };
        if (number is { } n && rule.Allows(n))
        {
            return n;
        }

        string example = MeasuredText.Example(rule.Measure) is { } e ? $", as a number or as text such as \"{e}\"" : "";
        problems.Add(new JobProblem(
            path, $"found {JsonText.Show(element)}", rule.Words + (number.HasValue ? rule.Hint(number.Value) : example)));
        return null;
    }
}

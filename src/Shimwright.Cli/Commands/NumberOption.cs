using System.CommandLine;
using System.Globalization;

namespace Shimwright.Cli.Commands;

/// <summary>An option that takes a number with a decimal point, in a range that its errors name.</summary>
internal static class NumberOption
{
    public static Option<double?> Create(string name, string help, string about, double least, double greatest, bool whole = false) => new(name)
    {
        Description = about,
        HelpName = help,
        CustomParser = argument =>
        {
            string text = argument.Tokens.Count == 1 ? argument.Tokens[0].Value : "";
            if (Parse(text) is { } value && value >= least && value <= greatest && (!whole || value == Math.Floor(value)))
            {
                return value;
            }

            argument.AddError(string.Create(
                CultureInfo.InvariantCulture, $"{name}: found \"{text}\", allowed is a {(whole ? "whole " : "")}number from {least:0.######} to {greatest:0.######}."));
            return null;
        },
    };

    public static double? Parse(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value) ? value : null;
}

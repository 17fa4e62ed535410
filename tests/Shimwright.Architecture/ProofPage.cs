using System.Globalization;
using System.Text;
using Shimwright.Testing.Proof;

namespace Shimwright.Architecture;

/// <summary>The formulas with what holds them up, as a page.</summary>
internal static class ProofPage
{
    public static string Of(IReadOnlyList<ProofLine> lines)
    {
        StringBuilder page = new();
        page.Append(
            """
            # Proof

            Why the numbers can be believed: every formula that a result rests on, where it comes from in brief, and the tests that hold it against
            something else. *Published* is a figure that somebody else has printed, with its source at the test. *Computed* is the same by another way:
            plain sums, everything tried, a library. *Simulated* are invented engines and people whose truth is known; the limits of such a test are
            worked out from the number of cases. This page is made from the tests; a test fails where it is not what they say. `./test proof` runs them
            and prints it.

            What no test can show is that your engine behaves as the model has it. [Results](../bench/RESULTS.md) has what becomes of its promises where
            engines lose clearance by other laws. The maker's manual comes first.

            """);
        foreach ((int number, Formula formula) in Formulas.All.Index())
        {
            page.Append(CultureInfo.InvariantCulture, $"\n## {number + 1}. {formula.Title}\n\n    {formula.Says}\n\n");
            page.Append(CultureInfo.InvariantCulture, $"{formula.Because} `{formula.Where}`, [more](guide/{formula.Guide}).\n\n");
            page.Append("| held against | | tests |\n|---|---|---|\n");
            foreach (ProofLine line in lines.Where(l => l.Formula == formula.Id))
            {
                page.Append(CultureInfo.InvariantCulture, $"| {line.Evidence.ToString().ToLowerInvariant()} | {line.Against} | `{line.Class["Shimwright.".Length..]}`, {line.Tests} |\n");
            }

            if (!ProofLine.HasPublished(lines, formula.Id))
            {
                page.Append("\nNo published figure for this is known to us.\n");
            }
        }

        return page.ToString().ReplaceLineEndings("\n");
    }
}

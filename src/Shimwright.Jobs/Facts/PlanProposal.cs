using System.Security.Cryptography;
using System.Text;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Facts;

/// <summary>A plan on offer: what accepting it promises, and a mark by which exactly this one is known again.</summary>
/// <param name="Number">Its place among the plans on offer, from 1, least work first.</param>
/// <param name="IsAdvised">Whether it is the one whose work and what is to come are least together.</param>
/// <param name="Plan">What accepting it adds to the job.</param>
/// <param name="Fingerprint">A mark that is another one where any figure is another one.</param>
public sealed record PlanProposal(int Number, bool IsAdvised, PlanAccepted Plan, string Fingerprint)
{
    private const int MarkLength = 32;

    /// <summary>All plans on offer.</summary>
    /// <param name="result">The plans.</param>
    /// <returns>One for each alternative, the advised one among them.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="result"/> is null.</exception>
    public static IReadOnlyList<PlanProposal> AllOf(PlanResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return [.. result.Alternatives.Select((a, i) => Of(i + 1, a, result))];
    }

    /// <summary>The mark of a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <returns>Letters and digits.</returns>
    public static string FingerprintOf(PlanAccepted plan) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(FactJson.Write(plan))))[..MarkLength];

    private static PlanProposal Of(int number, AlternativeRow row, PlanResult result)
    {
        var plan = new PlanAccepted(row.Opened, row.ChanceAll, row.Minutes, row.Bought, row.Valves, [.. Stranded(row, result)], row.Work, row.ToCome);
        return new(number, row.Chosen, plan, FingerprintOf(plan));
    }

    /// <summary>A line without a chance is a valve that cannot be helped; why is said where the advised plan says it.</summary>
    private static IEnumerable<StrandedRow> Stranded(AlternativeRow row, PlanResult result) => row.Valves
        .Where(v => v.Chance is null)
        .Select(v => result.Stranded.FirstOrDefault(s => s.Valve == v.Valve) ?? new StrandedRow(v.Valve, "this plan leaves it nothing that would do"));
}

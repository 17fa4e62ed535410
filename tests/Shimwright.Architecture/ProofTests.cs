using System.Reflection;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Architecture;

/// <summary>docs/proof.md is what the tests say of themselves, and every formula has something to be held against.</summary>
[Trait("Kind", "proof")]
public class ProofTests
{
    private static readonly IReadOnlyList<ProofLine> Lines = ProofLine.All();

    [Fact]
    public void Proof_Page_IsWhatTheTestsSay()
    {
        string file = Path.Combine(Repository.Root, "docs", "proof.md");
        string made = ProofPage.Of(Lines);
        if (Environment.GetEnvironmentVariable("SHIMWRIGHT_APPROVE") == "1")
        {
            File.WriteAllText(file, made);
        }

        Assert.Equal(made, File.Exists(file) ? File.ReadAllText(file) : "");
    }

    [Fact]
    public void Lines_OfEveryTest_NameAFormula() =>
        Assert.Empty(Lines.Select(l => l.Formula).Except(Formulas.All.Select(f => f.Id)));

    [Fact]
    public void Lines_OfEveryTest_RunSomething() => Assert.All(Lines, l => Assert.True(l.Tests > 0, $"{l.Class} has no test."));

    [Fact]
    public void Formulas_All_AreHeldAgainstSomething() =>
        Assert.Empty(Formulas.All.Where(f => Lines.All(l => l.Formula != f.Id)).Select(f => f.Title));

    /// <summary>What only our own tests stand for is named on the page; it must not grow unseen.</summary>
    [Fact]
    public void Formulas_WithoutAPublishedFigure_AreThese() => Assert.Equal(
        [Formulas.NextBlade, Formulas.Depth, Formulas.Plan, Formulas.Promise, Formulas.Worth, Formulas.Recheck, Formulas.Signs, Formulas.Wants],
        Formulas.All.Where(f => !ProofLine.HasPublished(Lines, f.Id)).Select(f => f.Id));

    [Fact]
    public void Formulas_All_SayWhereTheyAreWorkedOutAndReadMore()
    {
        Assembly domain = typeof(EngineEstimate).Assembly;
        Assert.All(Formulas.All, f => Assert.NotNull(domain.GetType("Shimwright.Domain." + f.Where) ?? domain.GetType($"Shimwright.Domain.{f.Where}`1")));
        Assert.All(Formulas.All, f =>
        {
            string[] link = f.Guide.Split('#');
            string[] lines = File.ReadAllLines(Path.Combine(Repository.Root, "docs", "guide", link[0]));
            Assert.True(link.Length == 1 || lines.Any(l => l.StartsWith('#') && Anchor(l) == link[1]), $"{f.Guide} leads nowhere.");
        });
    }

    private static string Anchor(string heading) =>
        string.Concat(heading.TrimStart('#').Trim().ToLowerInvariant().Where(c => char.IsLetterOrDigit(c) || c is ' ' or '-')).Replace(' ', '-');
}

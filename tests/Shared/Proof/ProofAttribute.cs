using Xunit.v3;

namespace Shimwright.Testing.Proof;

/// <summary>What kind of thing a test holds a formula against.</summary>
internal enum Evidence
{
    /// <summary>A figure somebody else has published; where from stands beside it.</summary>
    Published,

    /// <summary>The same computed another way: slow and plain, by trying everything, or by a library.</summary>
    Computed,

    /// <summary>Invented engines and people whose truth is known: what was promised is counted.</summary>
    Simulated,
}

/// <summary>Says which formula a class of tests holds up, and against what. docs/proof.md is made from these.</summary>
[AttributeUsage(AttributeTargets.Class, AllowMultiple = true)]
internal sealed class ProofAttribute(string formula, Evidence evidence, string against) : Attribute, ITraitAttribute
{
    /// <summary>The formula: one of <see cref="Formulas"/>.</summary>
    public string Formula { get; } = formula;

    public Evidence Evidence { get; } = evidence;

    /// <summary>What it is held against, with its source where it was published.</summary>
    public string Against { get; } = against;

    public IReadOnlyCollection<KeyValuePair<string, string>> GetTraits() => [new("Kind", "proof"), new("Proof", Formula)];
}

namespace Shimwright.Pages.Visits;

/// <summary>Who may visit a page, where it is not as usual: whoever is let in looks, and a mechanic sends.</summary>
/// <param name="rule">One of <see cref="AccessRules"/>.</param>
[AttributeUsage(AttributeTargets.Class)]
public sealed class AccessAttribute(string rule) : Attribute
{
    /// <summary>The rule.</summary>
    public string Rule { get; } = rule;
}

/// <summary>Who may look at an address, and who may send something there.</summary>
public static class AccessRules
{
    /// <summary>Anybody, let in or not.</summary>
    public const string Open = "open";

    /// <summary>Whoever is let in looks; what is sent changes nothing.</summary>
    public const string Look = "look";

    /// <summary>Whoever is let in looks, a mechanic sends.</summary>
    public const string Work = "work";

    /// <summary>Whoever is let in looks, an owner sends.</summary>
    public const string Settle = "settle";

    /// <summary>A mechanic takes what is there along, and sends.</summary>
    public const string Take = "take";

    /// <summary>Owners only.</summary>
    public const string Own = "own";
}

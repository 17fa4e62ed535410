namespace Shimwright.Jobs.Members;

/// <summary>A number that may be left out: everything that is known of it, in one place.</summary>
/// <param name="Name">What it is called in a file.</param>
/// <param name="Rule">Its range and unit.</param>
/// <param name="About">What it is, for the schema.</param>
/// <param name="Usual">What it is where it was left out.</param>
internal sealed record NumberMember(string Name, NumberRule Rule, string About, double Usual);

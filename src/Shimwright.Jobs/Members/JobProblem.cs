namespace Shimwright.Jobs.Members;

/// <summary>One thing that is wrong with a job file.</summary>
/// <param name="Path">Where: a JSON path such as $.check.readings[0].value.</param>
/// <param name="Found">What was found there.</param>
/// <param name="Allowed">What is allowed there, or what to do.</param>
public sealed record JobProblem(string Path, string Found, string Allowed)
{
    /// <summary>The problem in one line. Control characters, which a file may smuggle into names, are written out.</summary>
    /// <returns>Path, what was found, what is allowed.</returns>
    public override string ToString() => OneLine.Of($"{Path}: {Found}; {Allowed}");
}

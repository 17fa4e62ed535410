namespace Shimwright.Domain.Planning;

/// <summary>What a minute of work and a minute of what is to come count in a search.</summary>
/// <param name="Work">Of a minute of work, above 0.</param>
/// <param name="ToCome">Of a minute of what is to come, above 0.</param>
internal readonly record struct PlanWeights(double Work, double ToCome)
{
    /// <summary>A minute is a minute: what the chosen plan minimises.</summary>
    public static PlanWeights Even { get; } = new(1, 1);

    /// <summary>The weights under which two plans cost the same; the greater of the two weights is 1.</summary>
    public static PlanWeights Between(PlanPoint lessWork, PlanPoint lessToCome)
    {
        double work = lessWork.ToCome - lessToCome.ToCome;
        double toCome = lessToCome.Work - lessWork.Work;
        double greater = Math.Max(work, toCome);
        return new(work / greater, toCome / greater);
    }

    public double Of(double work, double toCome) => (Work * work) + (ToCome * toCome);
}

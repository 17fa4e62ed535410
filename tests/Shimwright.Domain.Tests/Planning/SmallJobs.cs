using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>The random small jobs with every choice tried and with the plan, made once for all tests.</summary>
public sealed class SmallJobs
{
    public const int Count = 400;

    internal IReadOnlyList<SmallJob> All { get; } = [.. Enumerable.Range(0, Count).Select(Make)];

    private static SmallJob Make(int seed)
    {
        PlanRequest request = RandomJob.Draw(seed);
        EngineEstimate estimate = Made.EstimateFor(request);
        return new(seed, request, estimate, BruteForce.Outcomes(request, estimate), Planner.Plan(request));
    }
}

/// <summary>One small job: what all valid choices come to, and what the planner made of it.</summary>
internal sealed record SmallJob(
    int Seed, PlanRequest Request, EngineEstimate Estimate, IReadOnlyList<PlanOutcome> Outcomes, PlanChoice Choice)
{
    /// <summary>The least objective over all choices.</summary>
    public double Least { get; } = Outcomes.Min(o => o.Minutes);

    public IReadOnlyList<(double ToCome, double Work)> Alternatives => [.. Choice.Alternatives.Select(p => PlanOutcome.Of(p, Request).Point)];
}

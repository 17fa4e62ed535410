namespace Shimwright.Domain.Planning;

/// <summary>A plan as a point: what its work takes and what is to come after it, minutes.</summary>
internal sealed record PlanPoint(ValveOption[] Choice, double Work, double ToCome, double Doubt, int Opened, int Changed, int Bought)
{
    /// <summary>What the chosen plan has least of.</summary>
    public double Minutes => Work + ToCome;
}

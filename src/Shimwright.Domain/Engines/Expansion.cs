namespace Shimwright.Domain.Engines;

/// <summary>
/// Linear expansion of what heads and valves are made of, for each degree. Metals at room temperature: W. D. Callister,
/// Materials Science and Engineering, Appendix B, table B.6. Valve steels, means from 20 °C: NF EN 10090:1998, as suppliers'
/// sheets quote it.
/// </summary>
public static class Expansion
{
    /// <summary>Cast aluminium alloy 356.0 (Callister).</summary>
    public const double CastAluminium = 21.5e-6;

    /// <summary>Gray iron (Callister).</summary>
    public const double GrayIron = 11.4e-6;

    /// <summary>Titanium, Ti-6Al-4V (Callister).</summary>
    public const double Titanium = 8.6e-6;

    /// <summary>Austenitic valve steel X53CrMnNiNbN21-9 (1.4870), 20 to 100 °C (EN 10090).</summary>
    public const double AusteniticValveSteel = 15.5e-6;

    /// <summary>Martensitic valve steel X45CrSi9-3 (1.4718), 20 to 400 °C (EN 10090).</summary>
    public const double MartensiticValveSteel = 12.0e-6;
}

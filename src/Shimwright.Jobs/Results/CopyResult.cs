namespace Shimwright.Jobs.Results;

/// <summary>The answer of the commands backup, restore, export and import.</summary>
/// <param name="Engines">How many engines there are.</param>
/// <param name="Jobs">How many jobs.</param>
/// <param name="Facts">How many facts the jobs have.</param>
/// <param name="DrawerEntries">How many entries the drawer has.</param>
/// <param name="File">The copy or archive, with its full path.</param>
/// <param name="Aside">Where the bench is as it was before, or null.</param>
public sealed record CopyResult(int Engines, int Jobs, int Facts, int DrawerEntries, string File, string? Aside);

/// <summary>The answer of the command check.</summary>
/// <param name="Engines">How many engines there are.</param>
/// <param name="Jobs">How many jobs.</param>
/// <param name="Facts">How many facts the jobs have.</param>
/// <param name="DrawerEntries">How many entries the drawer has.</param>
/// <param name="Sound">Whether the bench is sound.</param>
/// <param name="WithoutChecksum">How many rows have no checksum yet.</param>
/// <param name="Damage">What is damaged, one sentence each.</param>
public sealed record CheckResult(
    int Engines, int Jobs, int Facts, int DrawerEntries, bool Sound, int WithoutChecksum, IReadOnlyList<string> Damage);

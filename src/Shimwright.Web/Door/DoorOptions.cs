namespace Shimwright.Web.Door;

/// <summary>Who is let in without a code.</summary>
/// <param name="IsShop">Whether the bench is open to a network. If not, whoever reaches it is at the machine, and owns it.</param>
/// <param name="IsLocked">Whether whoever is at the machine has to be let in too.</param>
public sealed record DoorOptions(bool IsShop, bool IsLocked);

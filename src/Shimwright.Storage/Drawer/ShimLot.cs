using Shimwright.Jobs.Members;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Drawer;

/// <summary>Shims that are alike: one diameter, one thickness, found the same way.</summary>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Thickness">Thickness, whole micrometres.</param>
/// <param name="By">marked, calliper or micrometer.</param>
public readonly record struct ShimSize(int Diameter, int Thickness, string By)
{
    /// <summary>The size of a length in millimetres.</summary>
    /// <param name="diameter">Diameter, mm.</param>
    /// <param name="thickness">Thickness, mm.</param>
    /// <param name="by">marked, calliper or micrometer.</param>
    /// <returns>The size, to the micrometre.</returns>
    public static ShimSize Of(double diameter, double thickness, string by) => new(Micrometres(diameter), Micrometres(thickness), by);

    /// <summary>Diameter, mm.</summary>
    public double DiameterMm => Diameter / 1000.0;

    /// <summary>Thickness, mm.</summary>
    public double ThicknessMm => Thickness / 1000.0;

    /// <summary>Whole micrometres of a length.</summary>
    /// <param name="millimetres">The length, mm.</param>
    /// <returns>Micrometres.</returns>
    public static int Micrometres(double millimetres) => (int)Math.Round(millimetres * 1000, MidpointRounding.AwayFromZero);
}

/// <summary>What lies in the drawer of one size.</summary>
/// <param name="Size">The size.</param>
/// <param name="Count">How many there are by the ledger.</param>
/// <param name="Promised">How many of them open jobs have promised.</param>
/// <param name="Fitted">How many of the promised ones are in an engine already, though the job is still open.</param>
/// <param name="Place">Where they lie; blank where nobody has said.</param>
/// <param name="Price">The price of one as it was stated last, or null.</param>
public sealed record ShimLot(ShimSize Size, int Count, int Promised, int Fitted, string Place, double? Price)
{
    /// <summary>How many another job may use.</summary>
    public int Free => Math.Max(0, Count - Promised);

    /// <summary>How many should be lying in the compartment.</summary>
    public int Lying => Math.Max(0, Count - Fitted);
}

/// <summary>Why a count changed.</summary>
public enum ShimReason
{
    /// <summary>Shims were bought or put in.</summary>
    Bought,

    /// <summary>The shims were counted.</summary>
    Stocktake,

    /// <summary>A closed job has used it.</summary>
    Taken,

    /// <summary>A closed job has left it over.</summary>
    CameOut,

    /// <summary>An entry was taken back, or the job behind it was opened again.</summary>
    Undone,

    /// <summary>A shim known by its mark was measured: it left the one size and came to the other, two entries of one action.</summary>
    Measured,
}

/// <summary>An entry of the ledger.</summary>
/// <param name="Number">Its number; numbers go up with time.</param>
/// <param name="Size">The size.</param>
/// <param name="Change">By how many the count changed.</param>
/// <param name="Reason">Why.</param>
/// <param name="Job">The job behind it, or null.</param>
/// <param name="Engine">The job's engine, or null.</param>
/// <param name="Undoes">The entry that it takes back, or null.</param>
/// <param name="IsUndone">Whether it was taken back.</param>
/// <param name="Device">The device.</param>
/// <param name="At">When, UTC.</param>
/// <param name="After">The count after it.</param>
public sealed record DrawerMove(
    int Number, ShimSize Size, int Change, ShimReason Reason, Guid? Job, string? Engine, int? Undoes, bool IsUndone, string Device, DateTime At, int After)
{
    /// <summary>Whether it can be taken back here; what a job did is taken back by opening the job again.</summary>
    public bool CanBeUndone => Job is null && Undoes is null && !IsUndone;
}

/// <summary>A size and how many of it: put in, or counted.</summary>
/// <param name="Size">The size.</param>
/// <param name="Count">How many.</param>
/// <param name="Place">Where they lie; null leaves what was said before.</param>
/// <param name="Price">The price of one; null leaves what was said before.</param>
public sealed record ShimCount(ShimSize Size, int Count, string? Place = null, double? Price = null);

/// <summary>Who does something at the drawer; the same action twice counts once.</summary>
/// <param name="Action">The action.</param>
/// <param name="Device">The device.</param>
public sealed record DrawerStamp(Guid Action, string Device);

/// <summary>What became of it.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record DrawerResult(AddOutcome Outcome, IReadOnlyList<JobProblem> Problems)
{
    /// <summary>Whether it is on the disk.</summary>
    public bool IsSaved => Outcome is AddOutcome.Saved or AddOutcome.SavedBefore;
}

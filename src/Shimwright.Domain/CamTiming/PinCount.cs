namespace Shimwright.Domain.CamTiming;

/// <summary>
/// Chain pins counted in running direction from the mark of one camshaft to the mark of the other. One pin is one tooth.
/// A pin more than there should be means that the second camshaft has been turned on by one: it is advanced against the
/// first.
/// </summary>
/// <param name="Found">Pins counted.</param>
/// <param name="Right">Pins that the manual gives.</param>
public sealed record PinCount(int Found, int Right)
{
    /// <summary>Teeth by which the second camshaft is advanced against the first; negative where it is retarded.</summary>
    public int TeethAdvanced => Found - Right;
}

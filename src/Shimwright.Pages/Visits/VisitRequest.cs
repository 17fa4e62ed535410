namespace Shimwright.Pages.Visits;

/// <summary>What a visit comes with.</summary>
/// <param name="Address">Where to, in full.</param>
/// <param name="Device">The device on which the person works.</param>
/// <param name="Form">The form that was sent, or null.</param>
/// <param name="Left">Falls when the visitor goes away without waiting for the page.</param>
public sealed record VisitRequest(Uri Address, string Device, SentForm? Form = null, CancellationToken Left = default)
{
    /// <summary>Whether the visitor fetches what a page leaves out because it takes long.</summary>
    public bool FetchesParts { get; init; }
}

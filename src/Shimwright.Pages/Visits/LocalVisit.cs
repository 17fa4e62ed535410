using Shimwright.Bench.Devices;

namespace Shimwright.Pages.Visits;

/// <summary>A visit to a page that is made where it is read, without a server.</summary>
internal sealed class LocalVisit(VisitRequest request) : IVisit
{
    public string Device => request.Device;

    public bool MayLeaveOut => request.FetchesParts || request.Form is not null;

    public CancellationToken Left => request.Left;

    public string? DatabaseAway => null;

    // Without a server nothing fails on the way but a form.
    public bool WasSent => true;

    public bool IsUnreadable => false;

    public bool IsGone => true;

    // Whoever holds the device owns the bench in it.
    public DeviceRole? Role => DeviceRole.Owner;

    /// <summary>How the visit ended as far as the page has said.</summary>
    public VisitOutcome Outcome { get; private set; } = VisitOutcome.Shown;

    public void Refuse() => Outcome = VisitOutcome.Refused;

    public void Conflict() => Outcome = VisitOutcome.Conflict;
}

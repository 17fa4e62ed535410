using Shimwright.Bench.Devices;

namespace Shimwright.Pages.Visits;

/// <summary>One visit to a page: who comes, and how it ends where that is not with the page alone. A page is visited once and is then gone.</summary>
public interface IVisit
{
    /// <summary>The device on which the person works: a name by which what it sends can be told from what others send.</summary>
    string Device { get; }

    /// <summary>
    /// Whether a page may leave a part out, to be fetched or followed afterwards: where the device is known to run the bench's script, and where a
    /// form was sent, since what the page would show is then thrown away unless it is refused.
    /// </summary>
    bool MayLeaveOut { get; }

    /// <summary>Falls when the visitor goes away without waiting for the page.</summary>
    CancellationToken Left { get; }

    /// <summary>Why the database does not answer and what to do, where the visit failed by that; else null.</summary>
    string? DatabaseAway { get; }

    /// <summary>Whether something was sent, and not only a page asked for, where the visit failed.</summary>
    bool WasSent { get; }

    /// <summary>Whether what was sent could not be read as a form: too many fields, or cut off. Otherwise a form that is refused is an old one.</summary>
    bool IsUnreadable { get; }

    /// <summary>Whether the page no longer has the form that was sent: it was sent before, and what it asked for is done, or something has changed since.</summary>
    bool IsGone { get; }

    /// <summary>What the device may do; null where it is not let in.</summary>
    DeviceRole? Role { get; }

    /// <summary>Nothing was kept of what was sent: the page says what is wrong with it.</summary>
    void Refuse();

    /// <summary>Nothing was kept of what was sent: another device has changed in between what it was about.</summary>
    void Conflict();
}

namespace Shimwright.Pages.Visits;

/// <summary>How a visit ended.</summary>
public enum VisitOutcome
{
    /// <summary>With the page.</summary>
    Shown,

    /// <summary>With the page, which says why nothing was kept of what was sent.</summary>
    Refused,

    /// <summary>With the page, which says that another device has changed in between what was sent.</summary>
    Conflict,

    /// <summary>There is nothing at the address.</summary>
    Missing,

    /// <summary>The page has no form of the name that was sent, or not any more.</summary>
    NoSuchForm,

    /// <summary>The visitor is sent on to another address.</summary>
    SentOn,
}

/// <summary>What a visitor gets.</summary>
/// <param name="Outcome">How the visit ended.</param>
/// <param name="Html">The page; empty where the visitor is sent on.</param>
/// <param name="Next">Where the visitor is sent on to, in full; null otherwise.</param>
public sealed record VisitAnswer(VisitOutcome Outcome, string Html, Uri? Next = null);

using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Closing;

/// <summary>How a job is closed, and what follows it.</summary>
public sealed class CloseForm : ActionForm
{
    public string? Clock { get; set; }

    public string? Found { get; set; }

    public string? Notes { get; set; }

    public string? By { get; set; }

    public bool Confirmed { get; set; }

    public string? Then { get; set; }
}

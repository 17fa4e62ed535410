namespace Shimwright.Pages.Shell;

/// <summary>What every form that adds to a job brings back.</summary>
public class ActionForm
{
    public Guid Action { get; set; }

    public int Seen { get; set; }
}

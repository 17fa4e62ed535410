using System.Globalization;
using Microsoft.AspNetCore.Components.Forms;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.FeelCalibration;

/// <summary>What every form of a book of trials brings back.</summary>
public class FeelForm
{
    public Guid Action { get; set; }
}

/// <summary>Whose book it is.</summary>
internal sealed class NameForm : FeelForm
{
    public string? Name { get; set; }
}

/// <summary>A trial: the gap is typed, or as it was suggested; the blade is a chip, or typed; the feel is the button.</summary>
public sealed class FeelTapForm : FeelForm
{
    public string? Gap { get; set; }

    /// <summary>The chip: millimetres as the page wrote them.</summary>
    public string? Blade { get; set; }

    public string? Thickness { get; set; }

    public string? Leaves { get; set; }

    public string? Feel { get; set; }

    /// <summary>Reads the trial.</summary>
    /// <param name="lengths">The bench's unit.</param>
    /// <returns>The entry, or null and what is wrong.</returns>
    public (FeelTried? Entry, IReadOnlyList<JobProblem> Problems) Read(LengthStyle lengths)
    {
        List<JobProblem> problems = [];
        double? gap = lengths.Read(Gap, "gap").Note(problems);
        double? blade = ReadBlade(lengths, problems);
        int? leaves = ReadLeaves(problems);
        if (gap is not { } g || blade is not { } b || leaves is not { } k)
        {
            return (null, problems);
        }

        var trial = new TrialMade(g, b, k, Feel ?? "");
        return trial.Problems() is { Count: > 0 } wrong ? (null, wrong) : (new FeelTried([trial]), []);
    }

    private double? ReadBlade(LengthStyle lengths, List<JobProblem> problems)
    {
        if (!string.IsNullOrWhiteSpace(Thickness))
        {
            return lengths.Read(Thickness, "blade").Note(problems);
        }

        if (double.TryParse(Blade, NumberStyles.Float, CultureInfo.InvariantCulture, out double blade) && double.IsFinite(blade))
        {
            return blade;
        }

        problems.Add(new("blade", "no blade was chosen", "tap the blade first, then the feel"));
        return null;
    }

    private int? ReadLeaves(List<JobProblem> problems)
    {
        if (string.IsNullOrWhiteSpace(Leaves))
        {
            return 1;
        }

        if (int.TryParse(Leaves.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int leaves))
        {
            return leaves;
        }

        problems.Add(new("leaves", $"found \"{(Leaves.Length > 40 ? Leaves[..40] : Leaves)}\"", "enter the number of leaves in the stack, such as 2"));
        return null;
    }
}

/// <summary>An entry to undo or to redo.</summary>
internal sealed class FeelBackForm : FeelForm
{
    public int Number { get; set; }
}

/// <summary>A file of trials.</summary>
internal sealed class TrialFileForm : FeelForm
{
    public IBrowserFile? File { get; set; }
}

/// <summary>The fit that a person saw is to be the bench's feel.</summary>
internal sealed class UseFeelForm : FeelForm
{
    /// <summary>The version of the settings that was seen.</summary>
    public int Version { get; set; }

    /// <summary>The last entry of the book that was seen.</summary>
    public int Seen { get; set; }
}

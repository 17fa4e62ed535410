using System.Globalization;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>A blade was tried: the blade is a chip, or typed; the feel is the button.</summary>
internal sealed class TapForm : ActionForm
{
    public string? Valve { get; set; }

    /// <summary>The chip: millimetres as this page wrote them.</summary>
    public string? Blade { get; set; }

    public string? Thickness { get; set; }

    public string? Leaves { get; set; }

    public string? Feel { get; set; }

    public SentFacts Read(SheetPart part, LengthStyle lengths) => SentFacts.Of(this, problems =>
        BladeOf(lengths, problems) is { } blade && LeavesOf(problems) is { } leaves
            ? new BladeTried(part, Valve ?? "", blade, leaves, Feel ?? "")
            : null);

    private double? BladeOf(LengthStyle lengths, List<JobProblem> problems)
    {
        if (!string.IsNullOrWhiteSpace(Thickness))
        {
            return lengths.Read(Thickness, "thickness").Note(problems);
        }

        if (double.TryParse(Blade, NumberStyles.Float, CultureInfo.InvariantCulture, out double blade) && double.IsFinite(blade))
        {
            return blade;
        }

        problems.Add(string.IsNullOrWhiteSpace(Blade)
            ? new("blade", "none was chosen", "tap the blade first, then what it felt like")
            : new("blade", $"found \"{(Blade.Length > 40 ? Blade[..40] : Blade)}\"", "tap one of the blades, or type its thickness"));
        return null;
    }

    private int? LeavesOf(List<JobProblem> problems)
    {
        if (TypedNumber.Plain(Leaves, "leaves", needed: false).Note(problems) is not { } leaves)
        {
            return problems.Count == 0 ? 1 : null;
        }

        if (leaves >= 1 && leaves <= BladeTrial.MostLeaves && Math.Floor(leaves) == leaves)
        {
            return (int)leaves;
        }

        problems.Add(new("leaves", $"found {leaves.ToString(CultureInfo.InvariantCulture)}", string.Create(CultureInfo.InvariantCulture, $"a stack has 1 to {BladeTrial.MostLeaves} leaves")));
        return null;
    }
}

/// <summary>The bucket was tried by hand.</summary>
internal sealed class TurnForm : ActionForm
{
    public string? Valve { get; set; }

    /// <summary>yes or no.</summary>
    public string? Turns { get; set; }

    public SentFacts Read(SheetPart part) => SentFacts.Of(this, problems =>
    {
        if (Turns is "yes" or "no")
        {
            return new BucketTurned(part, Valve ?? "", Turns == "yes");
        }

        problems.Add(new("bucket", "nothing was chosen", "tap whether it turns"));
        return null;
    });
}

/// <summary>A clearance was measured as a number.</summary>
internal sealed class ValueForm : ActionForm
{
    public string? Valve { get; set; }

    public string? Value { get; set; }

    public string? U { get; set; }

    public SentFacts Read(SheetPart part, LengthStyle lengths) => SentFacts.Of(this, problems =>
    {
        double? value = lengths.Read(Value, "measured clearance").Note(problems);
        double? u = lengths.Read(U, "uncertainty").Note(problems);
        return value is { } v && u is { } s ? new ClearanceRead(part, Valve ?? "", v, s) : null;
    });
}

/// <summary>An entry is taken back, or an undoing of one.</summary>
internal sealed class UndoForm : ActionForm
{
    /// <summary>The number of the entry.</summary>
    public string? Entry { get; set; }

    public SentFacts Read(JobSheet sheet) => SentFacts.Of(this, problems =>
    {
        JobEntry? entry = int.TryParse(Entry, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            ? sheet.InForce.Concat(sheet.Undoings).FirstOrDefault(e => e.Number == number)
            : null;
        if (entry is null)
        {
            problems.Add(new("undo", "there is no such reading any more", "it was taken back already; look at the list below"));
            return null;
        }

        return new Undone(entry.Action, entry.Number);
    });
}

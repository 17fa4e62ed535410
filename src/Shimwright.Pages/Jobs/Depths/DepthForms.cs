using System.Globalization;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Depths;

/// <summary>A measured part as it stands in its fields: the size, its standard uncertainty, and from how many readings that comes.</summary>
public sealed class PartForm
{
    public string? Value { get; set; }

    public string? U { get; set; }

    public string? N { get; set; }

    public bool IsBlank => string.IsNullOrWhiteSpace(Value + U + N);

    /// <summary>Puts a part into its fields.</summary>
    public static PartForm? Of(MeasuredPart? part, LengthStyle lengths) => part is null ? null : new()
    {
        Value = lengths.Field(part.Value),
        U = lengths.Field(part.U),
        N = part.Df is { } df && df == Math.Floor(df) ? (df + 1).ToString("0", CultureInfo.InvariantCulture) : null,
    };

    /// <summary>Reads the part.</summary>
    /// <param name="form">Its fields.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="lengths">The bench's unit.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns>The part, or null.</returns>
    internal static MeasuredPart? Read(PartForm? form, string name, LengthStyle lengths, List<JobProblem> problems)
    {
        double? value = lengths.Read(form?.Value, name).Note(problems);
        double? u = lengths.Read(form?.U, $"{name}, uncertainty").Note(problems);
        double? degrees = null;
        if (!string.IsNullOrWhiteSpace(form?.N))
        {
            if (int.TryParse(form.N.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int n) && n >= 2)
            {
                degrees = n - 1;
            }
            else
            {
                problems.Add(new($"{name}, readings", $"found \"{(form.N.Length > 40 ? form.N[..40] : form.N)}\"", "enter how many readings were taken, 2 or more, or leave it blank"));
            }
        }

        return value is { } v && u is { } doubt ? new(v, doubt, degrees) : null;
    }

    /// <summary>Reads a part that may be left blank.</summary>
    internal static MeasuredPart? ReadIfThere(PartForm? form, string name, LengthStyle lengths, List<JobProblem> problems) =>
        form is null or { IsBlank: true } ? null : Read(form, name, lengths, problems);
}

/// <summary>What the valves under the camshaft have in common.</summary>
public sealed class CamshaftForm : ActionForm
{
    /// <summary>sizes or known.</summary>
    public string? How { get; set; }

    public PartForm? Saddle { get; set; }

    public PartForm? Journal { get; set; }

    public PartForm? BaseCircle { get; set; }

    public PartForm? Play { get; set; }

    public string? Valve { get; set; }

    public PartForm? Bucket { get; set; }

    public PartForm? Shim { get; set; }

    public PartForm? Clearance { get; set; }

    public SentFacts Read(string camshaft, LengthStyle lengths) => SentFacts.Of(this, problems => How switch
    {
        "sizes" => Sizes(camshaft, lengths, problems),
        "known" => Known(camshaft, lengths, problems),
        _ => Neither(problems),
    });

    private CamshaftMeasured? Sizes(string camshaft, LengthStyle lengths, List<JobProblem> problems)
    {
        MeasuredPart? saddle = PartForm.Read(Saddle, "saddle", lengths, problems);
        MeasuredPart? journal = PartForm.Read(Journal, "journal", lengths, problems);
        MeasuredPart? circle = PartForm.Read(BaseCircle, "base circle", lengths, problems);
        MeasuredPart? play = PartForm.ReadIfThere(Play, "play", lengths, problems);
        return saddle is null || journal is null || circle is null ? null : new(camshaft, saddle, journal, circle, play);
    }

    private CamshaftCompared? Known(string camshaft, LengthStyle lengths, List<JobProblem> problems)
    {
        if (string.IsNullOrEmpty(Valve))
        {
            problems.Add(new("known valve", "none was chosen", "choose one whose clearance was felt with a blade before the camshaft was lifted"));
        }

        MeasuredPart? bucket = PartForm.Read(Bucket, "its bucket", lengths, problems);
        MeasuredPart? shim = PartForm.ReadIfThere(Shim, "its shim", lengths, problems);
        MeasuredPart? clearance = PartForm.Read(Clearance, "its clearance", lengths, problems);
        return string.IsNullOrEmpty(Valve) || bucket is null || clearance is null ? null : new(camshaft, Valve, bucket, clearance, shim);
    }

    private static CamshaftFact? Neither(List<JobProblem> problems)
    {
        problems.Add(new("camshaft", "nothing was chosen", "choose its own sizes, or a valve whose clearance is known"));
        return null;
    }
}

/// <summary>The depth at one valve.</summary>
internal sealed class DepthForm : ActionForm
{
    public PartForm? Bucket { get; set; }

    public PartForm? Shim { get; set; }

    /// <summary>Reads the depth.</summary>
    /// <param name="valve">The valve.</param>
    /// <param name="camshaft">The camshaft over it.</param>
    /// <param name="before">A depth of this valve that the new one takes the place of: both would share their camshaft's errors, and count for too much.</param>
    /// <param name="lengths">The bench's unit.</param>
    /// <returns>What to add, or what is wrong.</returns>
    public SentFacts Read(string valve, string camshaft, JobEntry? before, LengthStyle lengths)
    {
        SentFacts sent = SentFacts.Of(this, problems =>
        {
            MeasuredPart? bucket = PartForm.Read(Bucket, "bucket", lengths, problems);
            MeasuredPart? shim = PartForm.ReadIfThere(Shim, "shim", lengths, problems);
            return bucket is null ? null : new DepthTaken(SheetPart.Check, valve, camshaft, bucket, shim);
        });
        return before is null || sent.Facts.Count == 0 ? sent : sent with { Facts = [new Undone(before.Action, before.Number), .. sent.Facts] };
    }
}

using System.Globalization;
using Shimwright.Domain.Depth;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Depths;

/// <summary>A measured part in its fields: the size, what it was measured with, and where a person has them their own uncertainty and number of readings.</summary>
public sealed class PartForm
{
    public string? Value { get; set; }

    /// <summary>The name of the tool, whose uncertainty counts where none of their own is typed.</summary>
    public string? By { get; set; }

    public string? U { get; set; }

    public string? N { get; set; }

    private const double SameUncertainty = 1e-6;

    public bool IsBlank => string.IsNullOrWhiteSpace(Value + U + N);

    /// <summary>Puts a part into its fields: an uncertainty that a tool brings is not written out.</summary>
    public static PartForm? Of(MeasuredPart? part, LengthStyle lengths, IReadOnlyList<MeasuringTool> tools)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        MeasuringTool? tool = tools.FirstOrDefault(t => part is { Df: null } && Math.Abs(t.Uncertainty - part.U) < SameUncertainty);
        return part is null ? null : new()
        {
            Value = lengths.Field(part.Value),
            By = tool?.Name,
            U = tool is null ? lengths.Field(part.U) : null,
            N = part.Df is { } df && df == Math.Floor(df) ? (df + 1).ToString("0", CultureInfo.InvariantCulture) : null,
        };
    }

    /// <summary>Reads the part.</summary>
    /// <param name="form">Its fields.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="lengths">The bench's unit.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="tools">The tools that may be chosen.</param>
    /// <returns>The part, or null.</returns>
    internal static MeasuredPart? Read(PartForm? form, string name, LengthStyle lengths, List<JobProblem> problems, IReadOnlyList<MeasuringTool> tools)
    {
        double? value = lengths.Read(form?.Value, name).Note(problems);
        double? brought = string.IsNullOrWhiteSpace(form?.U) ? tools.FirstOrDefault(t => t.Name == form?.By)?.Uncertainty : null;
        double? u = brought ?? lengths.Read(form?.U, $"{name}, uncertainty").Note(problems);
        double? degrees = null;
        if (!string.IsNullOrWhiteSpace(form?.N))
        {
            if (int.TryParse(form.N.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int n) && n >= 2)
            {
                degrees = n - 1;
            }
            else
            {
                problems.Add(new($"{name}, readings", $"found \"{(form.N.Length > 40 ? form.N[..40] : form.N)}\"", "enter the number of readings, 2 or more, or leave it blank"));
            }
        }

        return value is { } v && u is { } doubt ? new(v, doubt, degrees) : null;
    }

    /// <summary>Reads a part that is optional.</summary>
    internal static MeasuredPart? ReadIfThere(PartForm? form, string name, LengthStyle lengths, List<JobProblem> problems, IReadOnlyList<MeasuringTool> tools) =>
        form is null or { IsBlank: true } ? null : Read(form, name, lengths, problems, tools);
}

/// <summary>What the valves under the camshaft have in common.</summary>
public sealed class CamshaftForm : ActionForm
{
    /// <summary>What is estimated of a clearance is taken to a tenth of a micrometre.</summary>
    private const int Digits = 4;

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

    internal SentFacts Read(DepthView view, LengthStyle lengths) => SentFacts.Of(this, problems => How switch
    {
        "sizes" => Sizes(view.Camshaft, lengths, problems),
        "known" => Known(view, lengths, problems),
        _ => Neither(problems),
    });

    private CamshaftMeasured? Sizes(string camshaft, LengthStyle lengths, List<JobProblem> problems)
    {
        MeasuredPart? saddle = PartForm.Read(Saddle, "saddle", lengths, problems, MeasuringTool.ForDepths);
        MeasuredPart? journal = PartForm.Read(Journal, "journal", lengths, problems, MeasuringTool.ForSizes);
        MeasuredPart? circle = PartForm.Read(BaseCircle, "base circle", lengths, problems, MeasuringTool.ForSizes);
        MeasuredPart? play = PartForm.ReadIfThere(Play, "play", lengths, problems, []);
        return saddle is null || journal is null || circle is null ? null : new(camshaft, saddle, journal, circle, play);
    }

    private CamshaftCompared? Known(DepthView view, LengthStyle lengths, List<JobProblem> problems)
    {
        if (string.IsNullOrEmpty(Valve))
        {
            problems.Add(new("known valve", "no valve was chosen", "choose one that was felt with a blade before the camshaft was lifted"));
        }

        MeasuredPart? bucket = PartForm.Read(Bucket, "its bucket", lengths, problems, MeasuringTool.ForDepths);
        MeasuredPart? shim = PartForm.ReadIfThere(Shim, "its shim", lengths, problems, MeasuringTool.ForSizes);
        MeasuredPart? clearance = Clearance is null or { IsBlank: true } && view.Felt.FirstOrDefault(f => f.Valve.Id == Valve)?.Estimate is { } felt
            ? new(Math.Round(felt.Mean, Digits), Math.Round(felt.Sd, Digits))
            : PartForm.Read(Clearance, "its clearance", lengths, problems, []);
        return string.IsNullOrEmpty(Valve) || bucket is null || clearance is null ? null : new(view.Camshaft, Valve, bucket, clearance, shim);
    }

    private static CamshaftFact? Neither(List<JobProblem> problems)
    {
        problems.Add(new("camshaft", "nothing was chosen", "choose its own sizes or a known valve"));
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
            MeasuredPart? bucket = PartForm.Read(Bucket, "bucket", lengths, problems, MeasuringTool.ForDepths);
            MeasuredPart? shim = PartForm.ReadIfThere(Shim, "shim", lengths, problems, MeasuringTool.ForSizes);
            return bucket is null ? null : new DepthTaken(SheetPart.Check, valve, camshaft, bucket, shim);
        });
        return before is null || sent.Facts.Count == 0 ? sent : sent with { Facts = [new Undone(before.Action, before.Number), .. sent.Facts] };
    }
}

using Shimwright.Domain.Advice;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;

namespace Shimwright.Jobs.Results;

/// <summary>The words that stand for the domain's kinds in files and answers.</summary>
public static class Words
{
    /// <summary>A status in a word.</summary>
    /// <param name="status">The status.</param>
    /// <returns>in, out or unsettled.</returns>
    public static string Of(ClearanceStatus status) => status switch
    {
        ClearanceStatus.In => "in",
        ClearanceStatus.Out => "out",
        _ => "unsettled",
    };

    /// <summary>A feel in a word.</summary>
    /// <param name="feel">The feel.</param>
    /// <returns>no, firm, light or loose.</returns>
    public static string Of(Feel feel) => feel switch
    {
        Feel.No => "no",
        Feel.Firm => "firm",
        Feel.Light => "light",
        _ => "loose",
    };

    /// <summary>A side in a word.</summary>
    /// <param name="side">The side.</param>
    /// <returns>intake or exhaust.</returns>
    public static string Of(ValveSide side) => side == ValveSide.Intake ? "intake" : "exhaust";

    /// <summary>An action in a word.</summary>
    /// <param name="action">The action.</param>
    /// <returns>keep, fit or turn.</returns>
    public static string Of(ValveAction action) => action switch
    {
        ValveAction.Fit => "fit",
        ValveAction.Turn => "turn",
        _ => "keep",
    };

    /// <summary>A kind of action in a word.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>blade, bucket, micrometer, depth or dryFit.</returns>
    public static string Of(ActionKind kind) => kind switch
    {
        ActionKind.Blade => "blade",
        ActionKind.Bucket => "bucket",
        ActionKind.Micrometer => "micrometer",
        ActionKind.Depth => "depth",
        _ => "dryFit",
    };

    /// <summary>A source in a word.</summary>
    /// <param name="source">Where a shim comes from.</param>
    /// <returns>drawer, engine or buy.</returns>
    public static string Of(ShimSource source) => source switch
    {
        ShimSource.Drawer => "drawer",
        ShimSource.Engine => "engine",
        _ => "buy",
    };

    /// <summary>All the words for a kind.</summary>
    /// <param name="kind">One of the kinds that have words here.</param>
    /// <returns>The words.</returns>
    /// <exception cref="ArgumentException">There are no words for it here.</exception>
    internal static IEnumerable<string> All(Type kind) =>
        kind == typeof(ClearanceStatus) ? Enum.GetValues<ClearanceStatus>().Select(Of)
        : kind == typeof(Feel) ? Enum.GetValues<Feel>().Select(Of)
        : kind == typeof(ValveSide) ? Enum.GetValues<ValveSide>().Select(Of)
        : kind == typeof(ValveAction) ? Enum.GetValues<ValveAction>().Select(Of)
        : kind == typeof(ActionKind) ? Enum.GetValues<ActionKind>().Select(Of)
        : kind == typeof(ShimSource) ? Enum.GetValues<ShimSource>().Select(Of)
        : throw new ArgumentException($"There are no words for {kind}.", nameof(kind));
}

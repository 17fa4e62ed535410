using System.Globalization;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Following;
using Shimwright.Bench.InStep;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Wording;

namespace Shimwright.Pocket.Here;

/// <summary>What was done here and the bench has not taken, or not promised yet, in words.</summary>
internal static class StepWords
{
    /// <summary>Where what was not taken is shown.</summary>
    public const string LeftAddress = "/settings/pocket#left";

    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>What is to be said on the pages of a job.</summary>
    public static IEnumerable<HostNotice> OfJob(Guid job, Follower follower)
    {
        if (follower.PendingOf(job).OfType<FactsAdded>().SelectMany(f => f.Read()).Any(f => f is PlanAccepted))
        {
            yield return new("This plan is provisional: its shims are not promised yet. The bench promises them when this phone is in reach.", "/settings/pocket", "In step");
        }

        foreach (LeftDeed left in follower.Left.Where(l => l.Deed.OfJob == job))
        {
            yield return new($"Not accepted by the bench: {Of(left.Deed, LengthStyle.Millimetres)}. {Why(left, follower, LengthStyle.Millimetres)}", LeftAddress, "Look");
        }
    }

    /// <summary>What was done.</summary>
    public static string Of(Deed deed, LengthStyle lengths) => deed switch
    {
        EngineAdded added => $"engine {added.Name} added",
        EngineShared shared => $"engine {shared.Name} added",
        EngineSaved saved => $"card of {saved.Name} changed",
        EngineRetired { IsRetired: true } => "an engine retired",
        EngineRetired => "an engine put back into use",
        EngineRemoved removed => $"engine {removed.Typed} deleted",
        UsageStated => "the use of an engine stated",
        JobStarted => "a job started",
        FactsAdded facts => string.Join("; ", facts.Read().Select(f => FactWords.Of(f, lengths))),
        ShimsPutIn { Shims: var s } => $"{Count(s.Count, "shim", "shims")} of {lengths.Shim(s.Size.ThicknessMm)} {lengths.UnitName} put into the drawer",
        ShimsCounted counted => "counted: " + string.Join(", ", counted.Counted.Select(c => $"{c.Count} of {lengths.Shim(c.Size.ThicknessMm)} {lengths.UnitName}")),
        ShimMeasured measured => $"a shim marked {lengths.Shim(measured.Marked.ThicknessMm)} {lengths.UnitName} measured",
        EntryTakenBack => "an entry of the drawer taken back",
        FeelWritten => "a trial of the feel",
        SettingsSaved => "settings changed",
        _ => "a photo added",
    };

    /// <summary>Why it was not taken: what is wrong with it, or what came in between, as it is said between two browsers.</summary>
    public static string Why(LeftDeed left, Follower follower, LengthStyle lengths)
    {
        if (left.Answer.Problems.Count > 0)
        {
            return string.Join(" ", left.Answer.Problems.Select(p => $"{Sentence(p.Found)} {Sentence(p.Allowed)}"));
        }

        IEnumerable<KeptFact> between = left.Deed.OfJob is { } job ? follower.Memory.FactsOf(job).Where(f => left.Answer.Unseen.Contains(f.Number)) : [];
        string said = string.Join("; ", between.Select(f => (DeviceSignature.PersonOf(f.Device) is { } who ? who + ": " : "") + FactWords.Of(FactJson.Read(f.Fact), lengths)));
        return said.Length > 0 ? $"Meanwhile on the bench: {said}." : "Meanwhile something was entered there that rules it out.";
    }

    private static string Sentence(string text) => text.Length == 0 ? "" : $"{char.ToUpperInvariant(text[0])}{text[1..].TrimEnd('.')}.";
}

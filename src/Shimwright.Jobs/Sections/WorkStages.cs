namespace Shimwright.Jobs.Sections;

/// <summary>What was done at a valve between two feelings.</summary>
/// <typeparam name="T">How a shim is written down.</typeparam>
/// <param name="From">What came out.</param>
/// <param name="To">What went in.</param>
internal readonly record struct Exchange<T>(T From, T To);

/// <summary>What was done before one feeling.</summary>
/// <typeparam name="T">How a shim is written down.</typeparam>
/// <param name="Changed">By valve, from what was in there before.</param>
/// <param name="SeatedAnew">Valves whose shim stayed while their camshaft was lifted and laid down once more.</param>
internal sealed record WorkStage<T>(IReadOnlyDictionary<string, Exchange<T>> Changed, IReadOnlyList<string> SeatedAnew);

/// <summary>
/// The work of a job, feeling by feeling: dry fits in their order, then what was done last. Each is told from the check on and stands here
/// from the feeling before it.
/// </summary>
internal static class WorkStages
{
    /// <summary>The stages, one for each dry fit and one for what was done last.</summary>
    /// <param name="dry">For each dry fit the valves under its camshaft, and what had been changed there since the check.</param>
    /// <param name="last">What has been changed since the check in the end.</param>
    public static IReadOnlyList<WorkStage<T>> Of<T>(
        IReadOnlyList<(IReadOnlySet<string> Valves, IReadOnlyDictionary<string, Exchange<T>> Changed)> dry, IReadOnlyDictionary<string, Exchange<T>> last)
    {
        Dictionary<string, Exchange<T>> made = new(StringComparer.Ordinal);
        HashSet<string> laidDown = new(StringComparer.Ordinal);
        List<WorkStage<T>> stages = [];
        foreach ((IReadOnlySet<string> valves, IReadOnlyDictionary<string, Exchange<T>> changed) in dry)
        {
            stages.Add(Next(valves, changed));
            laidDown.UnionWith(changed.Keys);
        }

        stages.Add(Next(laidDown.Union(last.Keys).ToHashSet(StringComparer.Ordinal), last));
        return stages;

        WorkStage<T> Next(IReadOnlySet<string> valves, IReadOnlyDictionary<string, Exchange<T>> now)
        {
            Dictionary<string, Exchange<T>> changed = new(StringComparer.Ordinal);
            foreach (string valve in valves)
            {
                bool was = made.TryGetValue(valve, out Exchange<T> before);
                bool has = now.TryGetValue(valve, out Exchange<T> whole);
                if ((was || has) && !(was && has && Equals(before.To, whole.To)))
                {
                    changed.Add(valve, was ? new(before.To, has ? whole.To : before.From) : whole);
                }
            }

            foreach ((string valve, Exchange<T> whole) in now)
            {
                made[valve] = whole;
            }

            foreach (string gone in valves.Where(v => !now.ContainsKey(v)))
            {
                made.Remove(gone);
            }

            return new(changed, [.. laidDown.Where(v => valves.Contains(v) && !changed.ContainsKey(v))]);
        }
    }
}

using System.Collections.Concurrent;

namespace Shimwright.Storm;

/// <summary>A save as it was sent: its action, the job, and how many facts it adds.</summary>
internal sealed record Sent(Guid Action, Guid Job, string Text);

/// <summary>What was sent and what became of it, as far as the one who sent it knows.</summary>
internal sealed class Ledger
{
    /// <summary>Saves that the bench called kept.</summary>
    public ConcurrentDictionary<Guid, Sent> Acknowledged { get; } = new();

    /// <summary>Saves of which nobody heard.</summary>
    public ConcurrentQueue<Sent> Unheard { get; } = new();

    /// <summary>Saves that were refused with 503, and so may be lost.</summary>
    public int Refused { get; set; }

    /// <summary>Acknowledged and gone, there twice, half there.</summary>
    public int Lost { get; private set; }

    public int Doubled { get; private set; }

    public int Halved { get; private set; }

    /// <summary>Unheard and there all the same: kept, its answer lost.</summary>
    public int Found { get; private set; }

    /// <summary>Compares what is there with what was called kept.</summary>
    /// <param name="kept">From an action to how many of its facts are there.</param>
    /// <param name="jobs">The jobs that were looked at.</param>
    public void Compare(IReadOnlyDictionary<Guid, int> kept, IReadOnlySet<Guid> jobs)
    {
        foreach (Sent sent in Acknowledged.Values.Where(s => jobs.Contains(s.Job)))
        {
            switch (kept.GetValueOrDefault(sent.Action))
            {
                case 0:
                    Lost++;
                    break;
                case 1:
                    Halved++;
                    break;
                case > Client.FactsEach:
                    Doubled++;
                    break;
            }
        }

        foreach (Sent sent in Unheard.Where(s => jobs.Contains(s.Job)))
        {
            int count = kept.GetValueOrDefault(sent.Action);
            Found += count == Client.FactsEach ? 1 : 0;
            Halved += count is not 0 and not Client.FactsEach ? 1 : 0;
        }
    }
}

using Shimwright.Bench.Contents;
using Shimwright.Bench.InStep;
using Shimwright.Jobs.Facts;

namespace Shimwright.Bench.Following;

/// <content>The steps: what was done here is sent, what is new there is taken.</content>
public sealed partial class Follower
{
    /// <summary>What is to be sent next.</summary>
    /// <param name="answered">The deeds that were answered since the last step.</param>
    /// <param name="picture">Finds a picture with its content.</param>
    /// <returns>The message; null where everything was answered.</returns>
    public async Task<StepSent?> NextToSendAsync(IReadOnlySet<Guid> answered, Func<Guid, Task<KeptPicture?>> picture)
    {
        ArgumentNullException.ThrowIfNull(answered);
        ArgumentNullException.ThrowIfNull(picture);
        if (Followed is not { } followed)
        {
            return null;
        }

        List<Deed> sent = [];
        int bytes = 0;
        foreach (Deed kept in _deeds.Values.Where(d => !answered.Contains(d.Id)).ToArray())
        {
            Deed deed = kept is PictureAdded added ? added with { Picture = await picture(added.Picture.Id) ?? added.Picture } : kept;
            bytes += StepJson.Write(deed).Length;
            if (sent.Count > 0 && (bytes > StepJson.MostBytes || sent.Count == StepJson.MostDeeds))
            {
                break;
            }

            sent.Add(deed);
        }

        return sent.Count == 0 ? null : new(followed.Pocket, _time.GetUtcNow().UtcDateTime, followed.Mark.Bench, sent);
    }

    /// <summary>Takes over what the followed bench has made of what was sent, and what is new there. What was done here meanwhile is done again upon it.</summary>
    /// <param name="answered">What became of what was sent.</param>
    /// <param name="changes">What has changed there since the last step, to the end.</param>
    /// <returns>Whether there is anything to see that was not done here: of others, or that something was not taken.</returns>
    /// <exception cref="InvalidOperationException">No bench is followed, or another one has answered.</exception>
    public async Task<bool> TakeAsync(StepAnswered answered, IReadOnlyList<StepChanges> changes)
    {
        ArgumentNullException.ThrowIfNull(answered);
        ArgumentNullException.ThrowIfNull(changes);
        if (Followed is not { } followed || !IsTheSame(answered.Bench) || changes.Any(c => c.Mark.Bench != answered.Bench))
        {
            throw new InvalidOperationException("This is not the bench that is followed.");
        }

        Dictionary<Guid, DeedAnswer> answers = answered.Answers.ToDictionary(a => a.Deed);
        Deed[] again = [.. _deeds.Values.Where(d => !answers.ContainsKey(d.Id))];
        Followed now = new(followed.Pocket, changes.Count == 0 ? followed.Mark with { Bench = answered.Bench } : changes[^1].Mark, answered.Device);
        if (answers.Count == 0 && now == followed && changes.All(c => c.Rows.Count == 0))
        {
            return false;
        }

        _isStepping = true;
        bool isNews;
        try
        {
            isNews = await StepAsync(now, answers, changes, again);
        }
        catch
        {
            // Half a step is none: what is kept is what was there before it.
            HasFailed = true;
            throw;
        }
        finally
        {
            _isStepping = false;
        }

        await KeepAsync();
        return isNews;
    }

    private async Task<bool> StepAsync(Followed now, Dictionary<Guid, DeedAnswer> answers, IReadOnlyList<StepChanges> changes, Deed[] again)
    {
        Followed = now;
        _waiting.Add(FollowLines.Of(now));
        foreach ((int number, Deed deed) in _deeds)
        {
            _waiting.Add(new(FollowLines.KeyOfDeed(number), null));
            if (answers.TryGetValue(deed.Id, out DeedAnswer? answer) && !answer.IsTaken)
            {
                Leave(deed, answer);
            }
        }

        _deeds.Clear();
        (Guid Job, int Shared)[] jobs = [.. _ahead.Jobs.Select(j => (j, _ahead.LastOf(j)!.Value))];
        int? shared = _ahead.LastEntry;
        int left = _left.Count;
        bool isNews = Lay(changes, answers) || answers.Values.Any(a => !a.IsTaken);
        await DoAgainAsync(again, now.Device, answers.Keys.Concat(again.Select(d => d.Id)).ToHashSet());
        foreach ((Guid job, int last) in jobs)
        {
            _generations.Note(job, Memory.FactsOf(job).Select(f => f.Number).DefaultIfEmpty().Max(), last);
        }

        if (shared is { } entry)
        {
            _generations.Note(Guid.Empty, Memory.LastEntry, entry);
        }

        return isNews || _left.Count != left;
    }

    /// <summary>Whether a bench that answers is the one that is followed, or the first one that does.</summary>
    /// <param name="bench">The bench.</param>
    /// <returns>Whether it is.</returns>
    public bool IsTheSame(string bench) => Followed is { Mark.Bench: var known } && (known.Length == 0 || known == bench);

    /// <summary>Puts the rows of the followed bench in the place of those that are here.</summary>
    /// <returns>Whether any of it was not done here.</returns>
    private bool Lay(IReadOnlyList<StepChanges> changes, Dictionary<Guid, DeedAnswer> own)
    {
        Dictionary<string, string?> rows = new(_ahead.Rows);
        foreach (StepRow row in changes.SelectMany(c => c.Rows))
        {
            rows[row.Key] = row.Row;
        }

        KeptLine[] lines = [.. WithoutKnown(rows).Select(r => new KeptLine(r.Key, r.Value)).OrderBy(l => l.Key, StringComparer.Ordinal)];
        _waiting.AddRange(_ahead.Rows.Keys.Select(k => new KeptLine(FollowLines.Base + k, null)));
        _ahead.Clear();
        _waiting.AddRange(lines);
        RowKeys gone = KeptLines.Rows(lines.Where(l => l.Line is null).Select(l => l.Key));
        BenchContents read = KeptLines.Read(lines);
        Memory.Replace(read, gone);
        Guid[] removed = [.. changes.SelectMany(c => c.Removed).Distinct().Where(e => Memory.Contents().Engines.Any(k => k.Id == e))];
        foreach (Guid engine in removed)
        {
            BenchContents removal = new() { Removed = [engine] };
            _waiting.AddRange(KeptLines.Of(removal, Memory.Contents));
            Memory.Follow(removal);
        }

        return removed.Length > 0 || read.Cards.Count + read.Engines.Count + read.Settings.Count > 0
            || read.Facts.Select(f => f.Action).Concat(read.Ledger.Select(l => l.Action)).Concat(read.Feels.Select(f => f.Action)).Concat(changes.SelectMany(c => c.Pictures)).Any(a => !own.ContainsKey(a));
    }

    /// <summary>What is here already need not be read again: of a job all facts are sent, and its engine and card with it.</summary>
    private IEnumerable<KeyValuePair<string, string?>> WithoutKnown(Dictionary<string, string?> rows)
    {
        RowKeys keys = KeptLines.Rows(rows.Keys);
        BenchContents here = Memory.Contents();
        BenchContents touched = new()
        {
            Cards = [.. here.Cards.Where(c => keys.Cards.Contains(c.Id))],
            Engines = [.. here.Engines.Where(e => keys.Engines.Contains(e.Id))],
            Facts = [.. keys.Facts.Select(f => f.Job).Distinct().SelectMany(Memory.FactsOf)],
        };
        Dictionary<string, string?> known = KeptLines.Of(touched, () => new()).ToDictionary(l => l.Key, l => l.Line);
        return rows.Where(r => r.Value is null || !known.TryGetValue(r.Key, out string? line) || line != r.Value);
    }

    private async Task DoAgainAsync(IReadOnlyList<Deed> deeds, string device, IReadOnlySet<Guid> own)
    {
        DeedWork work = new(Memory, device, actions => Task.FromResult<IReadOnlySet<Guid>>(actions.Where(own.Contains).ToHashSet()), Leap);
        foreach (Deed deed in deeds)
        {
            // Judged against all that is there now, it has seen it.
            Deed now = deed switch
            {
                FactsAdded facts => facts with { Seen = SeenThere(facts.Job, Memory.FactsOf(facts.Job).Select(f => f.Number).DefaultIfEmpty().Max()) },
                ShimsCounted { Seen: not null } counted => counted with { Seen = SeenThere(Memory.LastEntry) },
                _ => deed,
            };
            _doing = now;
            DeedAnswer answer = deed is PictureAdded ? DeedAnswer.Saved(deed) : await Memory.AtAsync(deed.At, _ => work.DoAsync(deed));
            if (!answer.IsTaken)
            {
                Leave(deed, answer);
            }
            else if (deed is PictureAdded)
            {
                Remember();
            }

            _doing = null;
        }
    }

    private void Leave(Deed deed, DeedAnswer answer)
    {
        Guid[] back = deed is FactsAdded facts ? [.. DeedFacts.Read(facts.Facts, null).OfType<Undone>().Select(u => u.Action)] : [];
        (int Number, LeftDeed Left)[] meant = [.. _left.Where(l => back.Contains(l.Value.Deed.Id)).Select(l => (l.Key, l.Value))];
        if (meant.Length > 0)
        {
            // What was not taken was taken back here: nobody needs to hear of either.
            foreach ((int known, LeftDeed left) in meant)
            {
                _left.Remove(known);
                _waiting.Add(new(left.Key, null));
            }

            return;
        }

        int number = _left.Count == 0 ? 1 : _left.Keys.Last() + 1;
        _left[number] = new(FollowLines.KeyOfLeft(number), deed, answer);
        _waiting.Add(FollowLines.OfLeft(_left[number]));
    }
}

using System.Text.Json;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;

namespace Shimwright.Bench.Contents;

/// <summary>What must hold among the rows of a bench: each can be read, and they belong together.</summary>
public static class ContentRules
{
    /// <summary>What does not hold.</summary>
    /// <param name="contents">The bench.</param>
    /// <param name="progress">Told how many rows have been looked at, or null.</param>
    /// <returns>The problems.</returns>
    public static IReadOnlyList<JobProblem> ProblemsOf(BenchContents contents, IProgress<int>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(contents);
        return new Look(contents, progress).Problems();
    }

    private sealed class Look(BenchContents contents, IProgress<int>? progress)
    {
        private readonly List<JobProblem> _problems = [];
        private int _done;

        public List<JobProblem> Problems()
        {
            OfEngines();
            OfJobs();
            OfDrawer();
            OfSettings();
            OfFeels();
            OfPictures();
            return _problems;
        }

        private void OfEngines()
        {
            HashSet<Guid> cards = [], engines = [];
            Dictionary<Guid, string> card = contents.Cards.DistinctBy(c => c.Id).ToDictionary(c => c.Id, c => c.Card);
            foreach (KeptCard kept in contents.Cards)
            {
                Count();
                string path = $"cards, {kept.Id}";
                Must(cards.Add(kept.Id), path, "found it twice", "each row is there once");
                Text(kept.Title, path);
                Reads(path, () => EngineCard.Read(kept.Card).Card is not null && CardDetails.Read(kept.Details) is not null, "a card of an engine");
            }

            foreach (KeptEngine engine in contents.Engines)
            {
                Count();
                string path = $"engines, {engine.Id}";
                Must(engines.Add(engine.Id), path, "found it twice", "each row is there once");
                Must(cards.Contains(engine.CardId), path, $"found the card {engine.CardId}, which is not there", "every engine has a card");
                Must(engine.PerWeek is null || double.IsFinite(engine.PerWeek.Value), path, "found no number", "finite numbers are needed");
                Must(new EnginePapers(engine.Owner, engine.Frame) is { CanBeKept: true } papers && papers == EnginePapers.Kept(papers, papers), path, "found an owner or a frame number that cannot be kept", FormattableString.Invariant($"allowed are {EnginePapers.Longest} characters each"));
                Must(engine.Notes == PlainText.Of(engine.Notes), path, "found a character that cannot be kept", "text is needed");
                Text(engine.Name, path);
                Reads(path, () => !card.TryGetValue(engine.CardId, out string? json) || NamedCard.Kept(json, engine.Name) is not null, "a name of an engine");
            }
        }

        private void OfJobs()
        {
            HashSet<Guid> engines = [.. contents.Engines.Select(e => e.Id)], jobs = [], actions = [];
            HashSet<int> numbers = [];
            int counted = contents.Counts.FirstOrDefault(c => c.Name == KeptCount.Jobs)?.Last ?? contents.LastJob;
            foreach (KeptJob job in contents.Jobs)
            {
                Count();
                string path = $"jobs, {job.Id}";
                Must(jobs.Add(job.Id), path, "found it twice", "each row is there once");
                Must(job.Number >= 1 && job.Number <= counted && numbers.Add(job.Number), path, FormattableString.Invariant($"found the job number {job.Number}"), FormattableString.Invariant($"jobs are counted from 1 to {counted}, each number once"));
                Must(actions.Add(job.Action), path, "found an action that started another job too", "an action starts one job");
                Must(engines.Contains(job.EngineId), path, $"found the engine {job.EngineId}, which is not there", "every job has an engine");
                Must(double.IsFinite(job.Clock) && Enum.IsDefined(job.Stage) && Enum.IsDefined(job.Past.Origin), path, "found a clock, stage or past that there is none of", "take another copy");
                Must(job.Record is null || job.ClosedAt is not null, path, "found a record of a job that is open", "only a closed job has one");
                Reads(path, () => JobSetup.Read(job.Setup) is not null && (job.Record is null || JobRecord.Read(job.Record) is not null), "what a job starts from, and its record");
            }

            Dictionary<Guid, int> last = [];
            foreach (KeptFact fact in contents.Facts.OrderBy(f => f.Job).ThenBy(f => f.Number))
            {
                Count();
                string path = FormattableString.Invariant($"facts, job {fact.Job}, {fact.Number}");
                int before = last.GetValueOrDefault(fact.Job);
                last[fact.Job] = fact.Number;
                Must(jobs.Contains(fact.Job), path, "found no such job", "every fact has a job");
                Must(fact.Number == before + 1, path, FormattableString.Invariant($"found it after {before}"), "facts of a job are numbered one by one from 1");
                Must(PlainText.CanNameADevice(fact.Device), path, "found no name of a device", $"allowed are {PlainText.LongestName} characters");
                Reads(path, () => FactJson.CanBeKept(FactJson.Read(fact.Fact)), "a fact");
            }
        }

        private void OfDrawer()
        {
            HashSet<Guid> jobs = [.. contents.Jobs.Select(j => j.Id)], open = [.. contents.Jobs.Where(j => j.ClosedAt is null).Select(j => j.Id)];
            Dictionary<ShimSize, int> counts = [];
            HashSet<int> undone = [];
            int before = 0;
            foreach (LedgerEntry entry in contents.Ledger.OrderBy(e => e.Number))
            {
                Count();
                string path = FormattableString.Invariant($"ledger, {entry.Number}");
                counts[entry.Size] = (int)Math.Clamp((long)counts.GetValueOrDefault(entry.Size) + entry.Change, int.MinValue, int.MaxValue);
                Must(entry.Number == before + 1, path, FormattableString.Invariant($"found it after {before}"), "entries are numbered one by one from 1");
                before = entry.Number;
                Must(entry.Job is not { } job || jobs.Contains(job), path, $"found the job {entry.Job}, which is not there", "take another copy");
                Must(entry.Undoes is not { } undoes || (undoes < entry.Number && undoes > 0 && undone.Add(undoes)), path, $"found that it takes back {entry.Undoes}", "an entry takes back an earlier one, once");
                Must(Enum.IsDefined(entry.Reason) && PlainText.CanNameADevice(entry.Device), path, "found a reason or device that there is none of", "take another copy");
                Must(counts[entry.Size] >= 0, path, FormattableString.Invariant($"found that {counts[entry.Size]} shims are left of {DrawerRules.Mm(entry.Size.ThicknessMm)}"), "a count is never below none");
                _problems.AddRange(DrawerRules.ProblemsOf(new(entry.Size, Math.Clamp(counts[entry.Size], 0, DrawerRules.MostCount), entry.Place, entry.Price)).Select(p => p with { Path = $"{path}, {p.Path}" }));
            }

            foreach (KeptPromises promise in contents.Promises.Where(p => p.Promised.Count > 0 && !open.Contains(p.Job)))
            {
                Must(false, $"promises, job {promise.Job}", "found shims promised to a job that is not open", "only an open job is promised shims");
            }
        }

        private void OfSettings()
        {
            int before = 0;
            foreach (KeptSettings kept in contents.Settings.OrderBy(s => s.Version))
            {
                string path = FormattableString.Invariant($"settings, {kept.Version}");
                Must(kept.Version == ++before && PlainText.CanNameADevice(kept.Device), path, FormattableString.Invariant($"found it as the state {before}, or no device"), "states are numbered one by one from 1");
                Reads(path, () => BenchSettings.Read(kept.Settings).Problems() is [], "settings");
            }
        }

        private void OfFeels()
        {
            Dictionary<Guid, int> last = [];
            HashSet<(Guid, Guid)> actions = [];
            foreach (KeptFeel feel in contents.Feels.OrderBy(f => f.Person).ThenBy(f => f.Number))
            {
                Count();
                string path = FormattableString.Invariant($"feels, {feel.Person}, {feel.Number}");
                int before = last.GetValueOrDefault(feel.Person);
                last[feel.Person] = feel.Number;
                Must(feel.Number == before + 1 && PlainText.CanNameADevice(feel.Device), path, FormattableString.Invariant($"found it after {before}, or no device"), "entries of a book are numbered one by one from 1");
                Must(actions.Add((feel.Person, feel.Action)), path, "found an action that wrote another entry too", "an action writes one entry");
                Reads(path, () => FeelEntry.Read(feel.Entry) is not null, "an entry of trials");
            }
        }

        private void OfPictures()
        {
            Must(contents.Counts.All(c => c.Name == KeptCount.Jobs && c.Last >= 0) && contents.Counts.Count <= 1, "counts", "found a count that there is none of", "jobs are counted, once");
            HashSet<Guid> pictures = [], jobs = [.. contents.Jobs.Select(j => j.Id)];
            foreach (KeptPicture kept in contents.Pictures)
            {
                Count();
                string path = $"pictures, {kept.Id}";
                Must(pictures.Add(kept.Id), path, "found it twice", "each row is there once");
                Must(kept.Job is not { } job || jobs.Contains(job), path, $"found the job {kept.Job}, which is not there", "take another copy");
                Reads(path, () => new Picture(kept.ContentType, kept.Width, kept.Height, kept.Content, kept.Thumb).IsSound(), "a picture that a bench has made");
            }
        }

        private void Count() => progress?.Report(++_done);

        private void Must(bool holds, string path, string found, string allowed)
        {
            if (!holds)
            {
                _problems.Add(new(path, found, allowed));
            }
        }

        private void Text(string text, string path) => Must(
            text.Length <= PlainText.LongestName && text == PlainText.Of(text), path,
            FormattableString.Invariant($"found a name of {text.Length} characters, or one that cannot be kept"), FormattableString.Invariant($"allowed are {PlainText.LongestName}"));

        /// <summary>Whatever a reader of kept rows throws at rows that nobody here has kept.</summary>
        private void Reads(string path, Func<bool> read, string what)
        {
            try
            {
                Must(read(), path, $"found what is not {what}", "take another copy");
            }
            catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException or FormatException or NotSupportedException
                or NullReferenceException or InvalidCastException or InvalidDataException or KeyNotFoundException or OverflowException)
            {
                _problems.Add(new(path, $"found what is not {what} ({e.Message})", "take another copy"));
            }
        }
    }
}

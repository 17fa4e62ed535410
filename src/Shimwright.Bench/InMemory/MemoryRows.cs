using Shimwright.Bench.Contents;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Marks;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.InMemory;

/// <summary>A card as it is held: its row, and what was read out of it.</summary>
internal sealed class MemoryCard(KeptCard row)
{
    private KeptCard _row = row;
    private EngineCard? _card;
    private CardDetails? _details;

    public KeptCard Row
    {
        get => _row;
        set => (_row, _card, _details) = (value, null, null);
    }

    public EngineCard Card => _card ??= EngineCard.Read(_row.Card).Card ?? throw new InvalidOperationException("A card that was kept can no longer be read.");

    public CardDetails Details => _details ??= CardDetails.Read(_row.Details);

    /// <summary>What its engines have taught of its rates; it follows from their jobs.</summary>
    public CardRates Rates { get; set; } = CardRates.None;
}

/// <summary>An engine as it is held.</summary>
internal sealed class MemoryEngine(KeptEngine row)
{
    private KeptEngine _row = row;
    private string? _search;

    public KeptEngine Row
    {
        get => _row;
        set => (_row, _search) = (value, null);
    }

    /// <summary>The name as it is searched for.</summary>
    public string Search => _search ??= SearchText.Of(_row.Name);

    /// <summary>Its forecast as it was worked out last; it follows from its jobs.</summary>
    public WorkedForecast? Forecast { get; set; }
}

/// <summary>A job as it is held: its row, and the sheet that its facts make up.</summary>
internal sealed class MemoryJob(KeptJob row)
{
    private readonly List<KeptFact> _facts = [];
    private readonly List<JobEntry> _entries = [];
    private JobSetup? _setup;
    private JobSheet? _sheet;
    private bool _hasMark, _hasMeasured;

    public KeptJob Row { get; set; } = row;

    public IReadOnlyList<KeptFact> Facts => _facts;

    /// <summary>The job's sheet, the drawer left out.</summary>
    public JobSheet Sheet => _sheet ??= JobSheet.Of(_setup ??= JobSetup.Read(Row.Setup), [.. _entries]);

    /// <summary>Whether its facts know both a mark and a measured size.</summary>
    public bool MayHaveMarks => _hasMark && _hasMeasured;

    /// <summary>Leaves only some of its facts.</summary>
    public void Leave(Predicate<KeptFact> which)
    {
        KeptFact[] left = [.. _facts.FindAll(which)];
        _facts.Clear();
        _entries.Clear();
        (_hasMark, _hasMeasured) = (false, false);
        Add(left);
    }

    public void Add(IEnumerable<KeptFact> facts)
    {
        foreach (KeptFact fact in facts)
        {
            _facts.Add(fact);
            _entries.Add(new(fact.Number, fact.Action, fact.Device, fact.At, FactJson.Read(fact.Fact)));
            _hasMark |= fact.Fact.Contains(MarkRules.Marked, StringComparison.Ordinal);
            _hasMeasured |= fact.Fact.Contains(MarkRules.Measured, StringComparison.Ordinal);
        }

        _sheet = null;
    }

    public JobSummary Summary(string engine) =>
        new(Row.Id, Row.Number, Row.EngineId, engine, Row.Stage, Row.Clock, Row.StartedAt, Row.ChangedAt, Row.ClosedAt, Row.DiscardedAt, KeptRecords.IsNothingToDo(Row.Record));
}

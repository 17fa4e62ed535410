using Shimwright.Bench;
using Shimwright.Bench.Contents;
using Shimwright.Bench.InStep;

namespace Shimwright.Storage;

/// <content>Others keep in step with the database.</content>
public sealed partial class BenchDatabase
{
    /// <inheritdoc/>
    public Task<string> NameAsync(CancellationToken cancel = default) => _steps.NameAsync(cancel);

    /// <inheritdoc/>
    public Task<StepPart> SinceAsync(StepMark mark, int most, CancellationToken cancel = default) => _steps.SinceAsync(mark, most, cancel);

    /// <inheritdoc/>
    public Task<DeedAnswer?> AnsweredAsync(Guid deed, CancellationToken cancel = default) => _steps.AnsweredAsync(deed, cancel);

    /// <inheritdoc/>
    public Task HearAsync(HeardDeed heard, CancellationToken cancel = default) => _steps.HearAsync(heard, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlySet<Guid>> SentByAsync(Guid pocket, IReadOnlyCollection<Guid> actions, CancellationToken cancel = default) => _steps.SentByAsync(pocket, actions, cancel);

    /// <inheritdoc/>
    public bool IsAway(Exception fault) => WhyAway(fault) is not null;

    /// <inheritdoc/>
    public Task<T> AtAsync<T>(DateTime time, Func<IBench, Task<T>> work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return work(new BenchDatabase(Description, (File, null), new StandingClock(time), _open, _keeper, this));
    }

    /// <inheritdoc/>
    public Task<KeptPicture?> PictureAsync(Guid id, CancellationToken cancel = default) => _steps.PictureAsync(id, cancel);

    private sealed class StandingClock(DateTime time) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(DateTime.SpecifyKind(time, DateTimeKind.Utc));
    }
}

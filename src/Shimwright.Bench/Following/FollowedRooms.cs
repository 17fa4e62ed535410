using Shimwright.Bench.Due;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.InStep;
using Shimwright.Bench.Photos;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.Following;

/// <summary>Forecasts, and the use that is stated remembered.</summary>
internal sealed class FollowedDue(Follower follower, IDue inner) : IDue
{
    /// <inheritdoc/>
    public Task<IReadOnlyList<DueEngine>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default) => inner.ListAsync(search, skip, take, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<DueEngine>> DatedAsync(int most, CancellationToken cancel = default) => inner.DatedAsync(most, cancel);

    /// <inheritdoc/>
    public Task<KeptForecast?> FindAsync(Guid engineId, CancellationToken cancel = default) => inner.FindAsync(engineId, cancel);

    /// <inheritdoc/>
    public Task<int> RefreshStaleAsync(int most, CancellationToken cancel = default) => inner.RefreshStaleAsync(most, cancel);

    /// <inheritdoc/>
    public Task KeepFreshAsync(IPace pace, CancellationToken cancel = default) => inner.KeepFreshAsync(pace, cancel);

    /// <inheritdoc/>
    public Task<StoredOutlook?> OutlookAsync(Guid engineId, CancellationToken cancel = default) => inner.OutlookAsync(engineId, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<PastJob>> PastAsync(Guid engineId, CancellationToken cancel = default) => inner.PastAsync(engineId, cancel);

    /// <inheritdoc/>
    public Task<double?> StatedUsageAsync(Guid engineId, CancellationToken cancel = default) => inner.StatedUsageAsync(engineId, cancel);

    /// <inheritdoc/>
    public Task<bool> StateUsageAsync(Guid engineId, double? perWeek, CancellationToken cancel = default)
    {
        DueRules.CheckUsage(perWeek);
        return follower.DoAsync<bool>(
            async at => new UsageStated(Guid.NewGuid(), at, engineId, await inner.StatedUsageAsync(engineId, cancel), perWeek),
            () => inner.StateUsageAsync(engineId, perWeek, cancel));
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<ScoredRecord>> RecordsAsync(int most, CancellationToken cancel = default) => inner.RecordsAsync(most, cancel);
}

/// <summary>Books of trials, their entries remembered.</summary>
internal sealed class FollowedFeel(Follower follower, IFeel inner) : IFeel
{
    /// <inheritdoc/>
    public Task<IReadOnlyList<StoredFeel>> ListAsync(CancellationToken cancel = default) => inner.ListAsync(cancel);

    /// <inheritdoc/>
    public Task<StoredFeel?> FindAsync(Guid id, CancellationToken cancel = default) => inner.FindAsync(id, cancel);

    /// <inheritdoc/>
    public Task<int?> NumberOfAsync(Guid id, Guid action, CancellationToken cancel = default) => inner.NumberOfAsync(id, action, cancel);

    /// <inheritdoc/>
    public Task<Guid?> ActionOfAsync(Guid id, int number, CancellationToken cancel = default) => inner.ActionOfAsync(id, number, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobProblem>> AddAsync(Guid id, Guid action, string device, FeelEntry entry, CancellationToken cancel = default)
    {
        FeelEntry kept = FeelRules.Kept(entry, device);
        return follower.DoAsync<IReadOnlyList<JobProblem>>(
            async at => new FeelWritten(action, at, id, kept.ToJson(), kept is FeelTakenBack back ? await inner.ActionOfAsync(id, back.Number, cancel) : null),
            () => inner.AddAsync(id, action, device, kept, cancel));
    }
}

/// <summary>Settings, remembered when they are saved.</summary>
internal sealed class FollowedSettings(Follower follower, ISettings inner) : ISettings
{
    /// <inheritdoc/>
    public Task<StoredSettings> CurrentAsync(CancellationToken cancel = default) => inner.CurrentAsync(cancel);

    /// <inheritdoc/>
    public Task<bool> SaveAsync(BenchSettings settings, int seen, string device, CancellationToken cancel = default)
    {
        SettingsRules.Check(settings, device);
        return follower.DoAsync(
            at => Task.FromResult<Deed?>(new SettingsSaved(Guid.NewGuid(), at, Follower.Shared(seen), Follower.Own(seen), settings.ToJson())),
            () => inner.SaveAsync(settings, seen, device, cancel));
    }
}

/// <summary>Pictures, remembered when they are added.</summary>
internal sealed class FollowedPictures(Follower follower, IPictures inner) : IPictures
{
    /// <inheritdoc/>
    public Task AddAsync(Guid id, Guid? job, Picture picture, CancellationToken cancel = default)
    {
        PictureRules.Check(id, picture);
        return follower.DoAsync(
            at => Task.FromResult<Deed?>(new PictureAdded(id, at, new(id, job, at, picture.ContentType, picture.Width, picture.Height, [], []))),
            async () =>
            {
                await inner.AddAsync(id, job, picture, cancel);
                return true;
            },
            isKeptElsewhere: true);
    }

    /// <inheritdoc/>
    public Task<Picture?> FindAsync(Guid id, Guid? job, CancellationToken cancel = default) => inner.FindAsync(id, job, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<PictureSize>> OfJobAsync(Guid job, CancellationToken cancel = default) => inner.OfJobAsync(job, cancel);
}

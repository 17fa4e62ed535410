namespace Shimwright.Pages.Tests.Served;

/// <summary>A clock that goes on only when it is told to: what is done on two benches is done at the same time. Nothing that waits for it wakes up.</summary>
internal sealed class StillTime : TimeProvider
{
    private DateTimeOffset _now = new(2026, 11, 28, 9, 30, 0, TimeSpan.Zero);

    public void GoOn() => _now += TimeSpan.FromSeconds(7);

    public override DateTimeOffset GetUtcNow() => _now;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        base.CreateTimer(callback, state, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
}

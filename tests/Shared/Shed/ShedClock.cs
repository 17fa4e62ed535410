namespace Shimwright.Testing.Shed;

/// <summary>A clock that the simulation moves.</summary>
internal sealed class ShedClock : TimeProvider
{
    private long _now = new DateTimeOffset(2026, 1, 5, 8, 0, 0, TimeSpan.Zero).UtcTicks;

    public DateTime Now => new(Interlocked.Read(ref _now), DateTimeKind.Utc);

    public override DateTimeOffset GetUtcNow() => new(Now);

    /// <summary>Moves it on; it never goes back.</summary>
    public void MoveTo(DateTime time)
    {
        long to = time.Ticks;
        while (Interlocked.Read(ref _now) is var now && now < to && Interlocked.CompareExchange(ref _now, to, now) != now)
        {
        }
    }
}

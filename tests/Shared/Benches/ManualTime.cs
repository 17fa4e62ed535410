namespace Shimwright.Testing.Benches;

/// <summary>A clock that a test sets.</summary>
internal sealed class ManualTime : TimeProvider
{
    private DateTimeOffset _now = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => _now;

    public void Pass(TimeSpan span) => _now += span;
}

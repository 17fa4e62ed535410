namespace Shimwright.Bench.Due;

/// <summary>How hard forecasts are worked at in the background: whoever waits for a page goes first.</summary>
public interface IPace
{
    /// <summary>How many engines are worked out at the same time.</summary>
    int AtOnce { get; }

    /// <summary>Waits until one more engine may be worked out.</summary>
    /// <param name="cancel">Ends the wait.</param>
    /// <returns>When it may.</returns>
    ValueTask TurnAsync(CancellationToken cancel);
}

/// <summary>Paces that wait for nobody.</summary>
public static class Paces
{
    /// <summary>One engine after the other, without a pause.</summary>
    public static IPace Steady { get; } = new SteadyPace();

    private sealed class SteadyPace : IPace
    {
        public int AtOnce => 1;

        public ValueTask TurnAsync(CancellationToken cancel) => ValueTask.CompletedTask;
    }
}

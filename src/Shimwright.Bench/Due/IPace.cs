namespace Shimwright.Bench.Due;

/// <summary>How hard forecasts are worked at in the background: whoever waits for a page goes first.</summary>
public interface IPace
{
    /// <summary>How many engines are worked out at the same time, at most.</summary>
    int AtOnce { get; }

    /// <summary>Does a piece of work, a few hundredths of a second of it, when its turn has come.</summary>
    /// <typeparam name="T">What comes of it.</typeparam>
    /// <param name="work">The work.</param>
    /// <param name="cancel">Ends the wait.</param>
    /// <returns>What has come of it.</returns>
    ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel);
}

/// <summary>Paces that wait for nobody.</summary>
public static class Paces
{
    /// <summary>One engine after the other, without a pause.</summary>
    public static IPace Steady { get; } = new SteadyPace();

    private sealed class SteadyPace : IPace
    {
        public int AtOnce => 1;

        public ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel) => ValueTask.FromResult(work());
    }
}

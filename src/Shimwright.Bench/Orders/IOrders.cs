namespace Shimwright.Bench.Orders;

/// <summary>What shims the engines that come due will want, and what to order so that they are there. Rests on the forecasts that are kept.</summary>
public interface IOrders
{
    /// <summary>How far ahead is looked unless told otherwise.</summary>
    static readonly TimeSpan UsualHorizon = TimeSpan.FromDays(90);

    /// <summary>What to order.</summary>
    /// <param name="horizon">How far ahead; null for <see cref="UsualHorizon"/>. Engines that are due already are always counted.</param>
    /// <param name="serviceLevel">How often a size should be there when it is wanted, 0 to 1; null for the bench's.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The orders of each diameter, and the engines behind them.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The horizon lies in the past.</exception>
    Task<FleetOrders> ListAsync(TimeSpan? horizon = null, double? serviceLevel = null, CancellationToken cancel = default);
}

namespace Shimwright.Domain.Planning;

/// <summary>
/// What a valve has to pay for each shim, for what others would have had from it: 0 or less, as dual prices of an assignment. Whatever
/// the prices are, the sum of what each valve would choose at them, and of all prices, is no more than any real plan costs.
/// </summary>
/// <param name="Of">The price of each shim.</param>
/// <param name="Sum">All prices.</param>
internal sealed record ShimPrices(double[] Of, double Sum);

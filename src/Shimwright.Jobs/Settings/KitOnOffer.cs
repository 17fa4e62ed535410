using System.Globalization;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Settings;

/// <summary>A kit of shims that could be bought; lengths in mm.</summary>
/// <param name="Name">What the bench calls it.</param>
/// <param name="Diameter">Diameter of its shims, 1 to 100.</param>
/// <param name="From">First size.</param>
/// <param name="To">Last size at most.</param>
/// <param name="Step">Distance of the sizes.</param>
/// <param name="Each">How many of each size.</param>
/// <param name="Price">Price of the whole kit.</param>
public sealed record KitOnOffer(string Name, double Diameter, double From, double To, double Step, int Each, double Price)
{
    /// <summary>The most characters of a name.</summary>
    public const int LongestName = 80;

    private const double LeastDiameter = 1, GreatestDiameter = 100, FinestStep = 0.001, HighestPrice = 1e6;
    private const int MostEach = 1000;

    /// <summary>What is wrong with it.</summary>
    /// <returns>The problems; the paths are name, diameter, from, to, step, each and price.</returns>
    public IReadOnlyList<JobProblem> Problems()
    {
        List<JobProblem> problems = [];
        Note(!string.IsNullOrWhiteSpace(Name) && Name.Length <= LongestName, "name", $"{Name?.Length ?? 0} characters", $"give it a name of 1 to {LongestName} characters");
        Note(Diameter is >= LeastDiameter and <= GreatestDiameter, "diameter", Mm(Diameter), $"allowed is {Mm(LeastDiameter)} to {Mm(GreatestDiameter)}");
        Note(From is >= Thickness.Thinnest and <= Thickness.Thickest, "from", Mm(From), $"allowed is {Mm(Thickness.Thinnest)} to {Mm(Thickness.Thickest)}");
        Note(To >= From && To <= Thickness.Thickest, "to", Mm(To), $"allowed is the first size to {Mm(Thickness.Thickest)}");
        Note(Step is >= FinestStep and <= Thickness.Thickest, "step", Mm(Step), $"allowed is {Mm(FinestStep)} to {Mm(Thickness.Thickest)}");
        Note(Each is >= 1 and <= MostEach, "each", Each.ToString(CultureInfo.InvariantCulture), $"allowed are 1 to {MostEach} of each size");
        Note(Price is >= 0 and <= HighestPrice, "price", Price.ToString("0.##", CultureInfo.InvariantCulture), $"allowed is 0 to {HighestPrice:0}");
        if (problems.Count == 0)
        {
            int sizes = SizeRange.CountOf(From, To, Step);
            Note(sizes <= SizeRange.MostSizes, "step", $"{sizes} sizes", $"allowed are {SizeRange.MostSizes}");
        }

        return problems;

        void Note(bool isFine, string path, string found, string allowed)
        {
            if (!isFine)
            {
                problems.Add(new(path, $"found {found}", allowed));
            }
        }
    }

    /// <summary>The kit as the reckoning takes it; it must have no problems.</summary>
    /// <returns>The kit.</returns>
    public Kit ToKit() => new(new SizeRange(From, To, Step, 0), Each, Price);

    /// <summary>How many shims are in it.</summary>
    public int Count => SizeRange.CountOf(From, To, Step) * Each;

    private static string Mm(double length) => string.Create(CultureInfo.InvariantCulture, $"{length:0.###} mm");
}

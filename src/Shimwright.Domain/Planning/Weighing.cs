namespace Shimwright.Domain.Planning;

/// <summary>
/// What a search minimises: doubt and minutes against each other, or one before the other. Ties go to the fewest
/// opened groups, changed valves and bought shims, in that order. The whole ranking is packed into one integer,
/// so that sums and comparisons are exact.
/// </summary>
internal sealed class Weighing
{
    /// <summary>Differences below this are ties: a billionth of a minute, or of a doubt.</summary>
    public const double Quantum = 1e-9;

    private const int CountBits = 7;
    private const int SecondBits = 42;
    private const int FirstBits = 52;
    private readonly double _perDoubt;
    private readonly double _perMinute;
    private readonly bool _countsBeforeDoubt;
    private readonly double _firstQuantum;
    private readonly double _secondQuantum;

    private Weighing(double perDoubt, double perMinute, bool countsBeforeDoubt, PlanScale scale)
    {
        _perDoubt = perDoubt;
        _perMinute = perMinute;
        _countsBeforeDoubt = countsBeforeDoubt;
        _firstQuantum = Fit((perDoubt * scale.NegLogChance) + (perMinute * scale.Minutes), FirstBits);
        _secondQuantum = Fit(perMinute > 0 ? scale.NegLogChance : scale.Minutes, SecondBits);
    }

    /// <summary>λ minutes for each unit of doubt; what is left equal is decided by less doubt.</summary>
    public static Weighing MinutesPerDoubt(double lambda, PlanScale scale) => new(lambda, 1, false, scale);

    /// <summary>Least doubt, then fewest minutes.</summary>
    public static Weighing DoubtFirst(PlanScale scale) => new(1, 0, false, scale);

    /// <summary>Fewest minutes, then the tie rules, then less doubt: for a bench to which a second round costs nothing.</summary>
    public static Weighing MinutesOnly(PlanScale scale) => new(0, 1, true, scale);

    public Int128 Of(ValveOption option) => Pack(
        option.IsStranded ? 1 : 0, option.NegLogChance, option.Minutes, 0, option.IsChange ? 1 : 0, option.IsBought ? 1 : 0);

    public Int128 OfOpened(double minutes) => Pack(0, 0, minutes, 1, 0, 0);

    private Int128 Pack(int stranded, double doubt, double minutes, int opened, int changed, int bought)
    {
        long first = Whole((_perDoubt * doubt) + (_perMinute * minutes), _firstQuantum);
        long second = Whole(_perMinute > 0 ? doubt : minutes, _secondQuantum);
        long counts = (((long)opened << CountBits | (uint)changed) << CountBits) | (uint)bought;
        return Assemble(stranded, first, second, counts);
    }

    private Int128 Assemble(int stranded, long first, long second, long counts)
    {
        Int128 key = ((Int128)stranded << FirstBits) + first;
        return _countsBeforeDoubt
            ? (((key << (3 * CountBits)) + counts) << SecondBits) + second
            : (((key << SecondBits) + second) << (3 * CountBits)) + counts;
    }

    private static long Whole(double amount, double quantum) => (long)Math.Round(amount / quantum);

    /// <summary>The quantum with which the greatest sum still fits its bits.</summary>
    private static double Fit(double greatest, int bits) => Math.Max(Quantum, greatest / Math.Pow(2, bits - 1));
}

/// <summary>The greatest doubt and minutes that any plan of a job can come to.</summary>
internal readonly record struct PlanScale(double NegLogChance, double Minutes);

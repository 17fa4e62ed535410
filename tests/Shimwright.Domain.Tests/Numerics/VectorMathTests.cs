using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

public class VectorMathTests
{
    /// <summary>Lengths about every width that a vector unit may have, odd and even numbers of vectors, and none.</summary>
    public static TheoryData<int> Lengths => [.. Enumerable.Range(0, 36), 1000, 1003];

    [Theory]
    [MemberData(nameof(Lengths))]
    public void Dot_AnyLength_IsThePlainSum(int length)
    {
        double[] a = Drawn(1, length + 3);
        double[] b = Drawn(2, length);
        double plain = 0;
        for (int i = 0; i < length; i++)
        {
            plain += a[i] * b[i];
        }

        Assert.Equal(plain, VectorMath.Dot(a, b), 1e-12);
    }

    [Theory]
    [MemberData(nameof(Lengths))]
    public void AddScaled_AnyLength_IsThePlainLoop(int length)
    {
        double[] target = Drawn(3, length);
        double[] source = Drawn(4, length + 2);
        double[] expected = [.. target.Zip(source, (t, s) => t + (s * 0.7))];
        VectorMath.AddScaled(target, source, 0.7);
        Assert.All(target.Zip(expected), pair => Assert.Equal(pair.Second, pair.First, 1e-15));
    }

    [Fact]
    public void Dot_FirstTooShort_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => VectorMath.Dot(new double[3], new double[4]));

    [Fact]
    public void AddScaled_SourceTooShort_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => VectorMath.AddScaled(new double[4], new double[3], 1));

    private static double[] Drawn(int seed, int length)
    {
        var chance = new SeededChance(seed);
        return [.. Enumerable.Range(0, length).Select(_ => chance.Uniform(-1, 1))];
    }
}

using Shimwright.Cli.Commands;

namespace Shimwright.Cli.Tests.Commands;

public class InOrderTests
{
    private const int Most = 8;

    [Fact]
    public void Of_WorkOfAnyLength_IsHandedOnInOrder() =>
        Assert.Equal(Enumerable.Range(0, 500).Select(i => i * i), InOrder.Of(Enumerable.Range(0, 500), Most, i =>
        {
            Thread.SpinWait(i % 7 == 0 ? 200_000 : 10);
            return i * i;
        }));

    /// <summary>One long piece of work holds up what is handed on, never what is read: that would grow with the file.</summary>
    [Fact]
    public void Of_WhatNobodyHasTakenYet_IsNeverMoreThanTheMost()
    {
        int read = 0, taken = 0;
        IEnumerable<int> Source()
        {
            for (int i = 0; i < 200; i++)
            {
                read++;
                Assert.True(read - taken <= Most + 1, $"{read} were read when {taken} were taken.");
                yield return i;
            }
        }

        foreach (int _ in InOrder.Of(Source(), Most, i => i))
        {
            taken++;
        }

        Assert.Equal((200, 200), (read, taken));
    }

    /// <summary>While the first is worked on the others are begun: all cores have something to do.</summary>
    [Fact]
    public void Of_ALongFirst_DoesNotHoldUpTheOthers()
    {
        using CountdownEvent others = new(Most - 1);
        int[] answers = [.. InOrder.Of(Enumerable.Range(0, Most), Most, i =>
        {
            if (i == 0)
            {
                Assert.True(others.Wait(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken));
            }
            else
            {
                others.Signal();
            }

            return i;
        })];
        Assert.Equal(Enumerable.Range(0, Most), answers);
    }

    [Fact]
    public void Of_AFault_IsThrownWhereItsAnswerWouldStand()
    {
        List<int> taken = [];
        Assert.Throws<FormatException>(() => taken.AddRange(InOrder.Of(Enumerable.Range(0, 20), Most, i => i == 5 ? throw new FormatException() : i)));
        Assert.Empty(taken.Except(Enumerable.Range(0, 5)));
    }
}

using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Tests.Wear;

/// <summary>The filter of Kalman (1960) and the smoother of Rauch, Tung and Striebel (1965) as textbooks print them, with matrices.</summary>
internal sealed class PlainKalman(WearState start, double diffusion)
{
    private readonly List<(Matrix<double> Move, Vector<double> Predicted, Matrix<double> PredictedSpread, Vector<double> Found, Matrix<double> FoundSpread)> _steps =
        [(Matrix<double>.Build.DenseIdentity(2), X(start), P(start), X(start), P(start))];

    private Vector<double> _x = X(start);
    private Matrix<double> _p = P(start);

    /// <summary>What a change leaves of the state before it: all of it, or where a screw was set the rate alone.</summary>
    private Matrix<double> _left = Matrix<double>.Build.DenseIdentity(2);

    public WearState Now => State(_x, _p);

    public void Read(double time, double? value, double uncertainty)
    {
        Matrix<double> f = Matrix<double>.Build.DenseOfArray(new[,] { { 1, -time }, { 0, 1 } });
        Matrix<double> q = Matrix<double>.Build.DenseOfArray(new[,] { { diffusion * time, 0 }, { 0, 0 } });
        Vector<double> x = f * _x;
        Matrix<double> p = (f * _p * f.Transpose()) + q;
        (Vector<double> predicted, Matrix<double> predictedSpread) = (x, p);
        if (value is { } y)
        {
            Matrix<double> h = Matrix<double>.Build.DenseOfArray(new[,] { { 1.0, 0 } });
            double s = (h * p * h.Transpose())[0, 0] + (uncertainty * uncertainty);
            Vector<double> gain = (p * h.Transpose()).Column(0) / s;
            x += gain * (y - x[0]);
            p -= gain.OuterProduct(gain) * s;
        }

        _steps.Add((f * _left, predicted, predictedSpread, x, p));
        (_x, _p, _left) = (x, p, Matrix<double>.Build.DenseIdentity(2));
    }

    public void Move(double shift, double error)
    {
        _x = Vector<double>.Build.DenseOfArray([_x[0] + shift, _x[1]]);
        _p = _p + Matrix<double>.Build.DenseOfArray(new[,] { { error * error, 0 }, { 0, 0 } });
    }

    /// <summary>A screw set by feel: the gap is known whatever it was, and nothing ties it to the rate.</summary>
    public void Set(double shift, double error)
    {
        _x = Vector<double>.Build.DenseOfArray([_x[0] + shift, _x[1]]);
        _p = Matrix<double>.Build.DenseOfArray(new[,] { { error * error, 0 }, { 0, _p[1, 1] } });
        _left = Matrix<double>.Build.DenseOfArray(new[,] { { 0.0, 0 }, { 0, 1 } });
    }

    /// <summary>The smoothed states of all steps.</summary>
    public IReadOnlyList<WearState> Smoothed()
    {
        var states = new WearState[_steps.Count];
        (Vector<double> x, Matrix<double> p) = (_steps[^1].Found, _steps[^1].FoundSpread);
        states[^1] = State(x, p);
        for (int k = _steps.Count - 2; k >= 0; k--)
        {
            Matrix<double> g = _steps[k].FoundSpread * _steps[k + 1].Move.Transpose() * _steps[k + 1].PredictedSpread.Inverse();
            x = _steps[k].Found + (g * (x - _steps[k + 1].Predicted));
            p = _steps[k].FoundSpread + (g * (p - _steps[k + 1].PredictedSpread) * g.Transpose());
            states[k] = State(x, p);
        }

        return states;
    }

    private static Vector<double> X(WearState s) => Vector<double>.Build.DenseOfArray([s.Clearance, s.Rate]);

    private static Matrix<double> P(WearState s) =>
        Matrix<double>.Build.DenseOfArray(new[,] { { s.ClearanceVariance, s.Covariance }, { s.Covariance, s.RateVariance } });

    private static WearState State(Vector<double> x, Matrix<double> p) => new(x[0], x[1], p[0, 0], p[0, 1], p[1, 1]);
}

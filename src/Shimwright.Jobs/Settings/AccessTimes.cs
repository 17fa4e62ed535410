using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Settings;

/// <summary>Minutes to lift what is in the way.</summary>
public static class AccessTimes
{
    /// <summary>Minutes to lift each access group: the card's own, else the bench's for a camshaft, and none where nothing is lifted.</summary>
    /// <param name="card">The card.</param>
    /// <param name="own">Minutes that were stated for the card's groups.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>Minutes a group.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="card"/>, <paramref name="own"/> or <paramref name="settings"/> is null.</exception>
    public static IReadOnlyDictionary<string, double> Of(EngineCard card, IReadOnlyDictionary<string, double> own, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(own);
        ArgumentNullException.ThrowIfNull(settings);
        double usual = WorkOrder.LiftsCamshafts(card.Engine.Valvetrain.Adjuster) ? settings.Lift : 0;
        return card.Engine.AccessGroups.ToDictionary(g => g, g => own.TryGetValue(g, out double minutes) ? minutes : usual, StringComparer.Ordinal);
    }
}
